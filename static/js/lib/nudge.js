/** Moving a point by keys, and keeping it on the picture. */

const DIRECTIONS = {
  ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1],
};

/** @returns {[number, number] | undefined} undefined for a key that is no arrow */
export const direction = (key) => DIRECTIONS[key];

/**
 * @param {[number, number]} point
 * @param {string} key as in `KeyboardEvent.key`
 * @param {number} step in pixels of the picture
 * @param {[number, number]} size of the picture
 * @returns {[number, number] | null} null for a key that is no arrow
 */
export function nudged([x, y], key, step, size) {
  const [dx, dy] = direction(key) ?? [];
  return dx === undefined ? null : onPicture([x + dx * step, y + dy * step], size);
}

/** The nearest place on the picture, its edges included. */
export function onPicture([x, y], [width, height]) {
  return [Math.min(Math.max(x, 0), width), Math.min(Math.max(y, 0), height)];
}
