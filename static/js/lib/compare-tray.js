/**
 * What is collected for a comparison: at most six units, each once, in the order of adding.
 *
 * @typedef {{key: string, title: string}} Unit key as the address names it: "12", "12v2"
 */
import { say } from "./say.js";

export const MOST = 6;
export const LEAST = 2;

const KEY = /^[1-9][0-9]{0,8}(v[1-9][0-9]{0,5})?$/;

/** What was kept, as far as it can be read. @returns {Unit[]} */
export function read(text) {
  try {
    const found = JSON.parse(text ?? "[]");
    return Array.isArray(found) ? found.filter(isUnit).slice(0, MOST) : [];
  } catch {
    return [];
  }
}

const isUnit = (one) => typeof one?.title === "string" && KEY.test(one?.key ?? "");

export const written = (units) => JSON.stringify(units);

export const has = (units, key) => units.some((one) => one.key === key);

/** The units with one more, or as they are where there is no room or it is there. */
export function added(units, unit) {
  if (has(units, unit.key) || units.length >= MOST || !isUnit(unit)) return units;
  return [...units, { key: unit.key, title: unit.title }];
}

export const removed = (units, key) => units.filter((one) => one.key !== key);

/** The address of their comparison. */
export const address = (base, units) => `${base}?units=${units.map((one) => one.key).join(",")}`;

/** What stands beside the list. */
export function words(units) {
  if (units.length === 0) return say("Nothing is collected for a comparison.");
  if (units.length === 1) return say("1 unit collected; add at least one more.");
  const n = units.length;
  return n === MOST ? say("{n} units collected; there is no room for more.", { n })
    : say("{n} units collected.", { n });
}
