/**
 * Words of scripts in the language of the page, such as say("{n} pictures saved", {n}).
 * English is what stands in the code; another language is a module of its texts, made by
 * `manage.py gather_words`, which is loaded before anything is said.
 */
const language = globalThis.document?.documentElement.lang ?? "en";
const WORDS = language === "de" ? (await import("../words/de.js")).WORDS : {};

/** @param {string} text @param {Record<string, string | number>} values */
export function say(text, values = {}) {
  return (WORDS[text] ?? text).replace(/\{(\w+)\}/g, (place, name) => String(values[name] ?? place));
}

/** A number as the page's language writes it. @param {number | string} value */
export function sayNumber(value) {
  return language === "de" ? String(value).replace(".", ",") : String(value);
}
