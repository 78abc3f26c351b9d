/** Points as a form carries them: "x,y x,y" in pixels of the picture, one decimal. */
import { say, sayNumber } from "./say.js";

const BETWEEN = sayNumber("0.5") === "0.5" ? ", " : "; ";       // beside decimal commas
const POINT = /^(-?\d{1,6}(?:\.\d{1,6})?),(-?\d{1,6}(?:\.\d{1,6})?)$/;

/**
 * @param {string} text such as "12.5,40 80,41"
 * @returns {[number, number][]}
 * @throws {RangeError} in the reader's words
 */
export function parsedPoints(text) {
  return text.trim().replace(/\s*,\s*/g, ",").split(/\s+/).filter(Boolean).map(parsedPoint);
}

function parsedPoint(word) {
  const [, x, y] = POINT.exec(word) ?? [];
  if (x === undefined) {
    throw new RangeError(say("“{word}” is no point. Write x and y in pixels with a comma between them and a space between points, such as 12.5,40 80,41.",
      { word: word.slice(0, 40) }));
  }
  return [Number(x), Number(y)];
}

/** @param {[number, number][]} points */
export const printedPoints = (points) => points.map(printedPoint).join(" ");

/** @param {[number, number]} point */
export const printedPoint = (point) => point.map(rounded).join(",");

/** A place for eyes and ears, which no form reads: "12.5, 40". @param {[number, number]} point */
export const printedPlace = (point) =>
  point.map((value) => sayNumber(rounded(value))).join(BETWEEN);

/** One decimal is a tenth of a pixel: finer than any click. */
export const rounded = (value) => Math.round(value * 10) / 10 + 0;      // + 0: never "-0"
