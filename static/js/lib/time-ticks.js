/** Ticks of an axis of time, as `figures/time_axis.py` sets them: unit by the span, round numbers. */
import { sayNumber } from "./say.js";

const UNITS = [
  ["ns", 1e-9, 0], ["µs", 1e-6, 2e-6], ["ms", 1e-3, 2e-3], ["s", 1, 2], ["min", 60, 180],
  ["h", 3600, 10800],
];
const LARGEST = 10000;      // before the next larger decimal unit is easier to read
const NAMED = { min: [1, 2, 5, 10, 15, 30], h: [1, 2, 3, 6, 12, 24] };

/** @returns {{unit: string, ticks: {at: number, label: string}[]}} `at` in seconds */
export function timeTicks(start, end, most) {
  const [unit, seconds] = unitOf(start, end);
  const step = roundStep((end - start) / seconds / Math.max(most - 1, 1), unit);
  const first = Math.ceil(start / seconds / step - 1e-9) + 0;     // never −0
  const last = Math.floor(end / seconds / step + 1e-9);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const ticks = [];
  for (let i = first; i <= last; i += 1) {
    ticks.push({ at: i * step * seconds, label: printed(i * step, decimals) });
  }
  return { unit, ticks };
}

/** @returns {[string, number]} the unit's name and its seconds */
export function unitOf(start, end) {
  const span = end - start || Math.abs(end);
  let place = Math.max(0, UNITS.findLastIndex(([, , least]) => span >= least));
  const far = Math.max(Math.abs(start), Math.abs(end));
  while (place < 3 && far / UNITS[place][1] >= LARGEST) place += 1;
  return UNITS[place].slice(0, 2);
}

function roundStep(rough, unit) {
  const named = NAMED[unit] ?? [];
  if (rough > 1 && rough <= named.at(-1)) return named.find((step) => step >= rough * (1 - 1e-9));
  const decade = rough > 0 ? 10 ** Math.floor(Math.log10(rough)) : 1;
  return [1, 2, 5, 10].map((m) => m * decade).find((step) => step >= rough * (1 - 1e-9));
}

/** A number with so many decimals and a real minus sign. */
export function printed(number, decimals) {
  const text = Math.abs(number).toFixed(decimals);
  return (number < 0 && Number(text) !== 0 ? "−" : "") + sayNumber(text);
}
