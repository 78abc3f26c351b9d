/** Millimetres while drawing; the server works out the value that counts, with its uncertainty. */
import { say, sayNumber } from "./say.js";

/** @typedef {(point: [number, number]) => [number, number]} Plane pixels of the picture → mm */

/**
 * @param {{mmPerPx?: string, homography?: string}} data the element's dataset; the homography's nine
 *   numbers row by row, pixels → mm
 * @returns {Plane | null} null without a scale
 */
export function planeOf({ mmPerPx, homography }) {
  const matrix = (homography ?? "").split(/[\s,]+/).filter(Boolean).map(Number);
  if (matrix.length === 9 && matrix.every(Number.isFinite)) return (point) => projected(matrix, point);
  const scale = Number(mmPerPx);
  return scale > 0 ? ([x, y]) => [x * scale, y * scale] : null;
}

function projected([a, b, c, d, e, f, g, h, i], [x, y]) {
  const w = g * x + h * y + i;
  return [(a * x + b * y + c) / w, (d * x + e * y + f) / w];
}

/** @returns {number[]} mm of each leg from point to point */
export function legs(points, plane) {
  const places = points.map(plane);
  return places.slice(1).map(([x, y], i) => Math.hypot(x - places[i][0], y - places[i][1]));
}

/**
 * Such as "4.20 mm", or for a path "4.20 mm, in all 11.72 mm, along the line": what counts as creepage
 * may be shorter, for grooves that are bridged. "" without a length.
 */
export function printedLegs(lengths) {
  const total = lengths.reduce((sum, length) => sum + length, 0);
  if (!lengths.length || !Number.isFinite(total)) return "";
  const last = printedLength(lengths.at(-1));
  return lengths.length === 1 ? last
    : say("{last}, in all {total}, along the line", { last, total: printedLength(total) });
}

const printedLength = (mm) => `${sayNumber(mm.toFixed(2))}\u202Fmm`;
