/** Numbers as the server prints them: prefix, narrow space, real minus; never more digits than known. */
import { say, sayNumber } from "./say.js";
import { printed, unitOf } from "./time-ticks.js";

const PREFIXES = { "-9": "n", "-6": "µ", "-3": "m", 0: "", 3: "k", 6: "M" };
const PREFIXED = new Set(["V", "A", "W", "s", "Hz"]);
const DIGITS = 4;
export const NONE = say("no reading");

/** @param {number} step smallest difference of two readings, 0 if it is not known */
export function quantityText(value, unit, step = 0) {
  if (value === null || value === undefined || Number.isNaN(value)) return NONE;
  const digits = digitsOf(value, step);
  const rounded = Number(value.toPrecision(digits));
  const power = PREFIXED.has(unit) ? prefixPower(rounded) : 0;
  const decimals = digits - 1 - exponent(rounded) + power;
  const number = printed(rounded / 10 ** power, Math.min(Math.max(decimals, 0), 9));
  return `${rounded === 0 ? "0" : number}\u202f${PREFIXES[power]}${unit}`;
}

/** A difference carries its sign. */
export function differenceText(value, unit, step = 0) {
  const text = quantityText(value, unit, step);
  return value > 0 ? `+${text}` : text;
}

/** A place in a log, as finely as a view of that length shows it. */
export function timeText(time, [start, end]) {
  const [unit, seconds] = unitOf(start, end);
  const decimals = decimalsFor((end - start) / seconds / 1000);
  return `${printed(time / seconds, decimals)}\u202f${unit}`;
}

/** A time in seconds for a field, as finely as the view shows it. */
export const secondsText = (time, [start, end]) =>
  sayNumber(Number(time.toFixed(decimalsFor((end - start) / 1000, 12))));

/** What such a field says, written with a point or a comma. @param {string} text */
export const secondsOf = (text) => Number(text.replace(",", "."));

const decimalsFor = (resolution, most = 6) =>
  Math.min(Math.max(Math.ceil(-Math.log10(resolution || 1)), 0), most);

function digitsOf(value, step) {
  if (!(step > 0) || value === 0) return DIGITS;
  return Math.min(Math.max(exponent(value) - exponent(step) + 1, 1), 7);
}

const exponent = (value) => (value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)) + 1e-12));

function prefixPower(value) {
  if (value === 0) return 0;
  return Math.min(Math.max(3 * Math.floor(exponent(value) / 3), -9), 6);
}
