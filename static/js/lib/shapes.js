/**
 * The five shapes of a mark: how many points each takes, how it is drawn, what lies on it.
 * "clicks" are no mark: one and the same point, clicked again and again.
 */
import { say } from "./say.js";

/** @typedef {[number, number]} Point in pixels of the picture */

const MOST = 500;

export const SHAPES = {
  point: { least: 1, most: 1 },
  line: { least: 2, most: 2 },
  path: { least: 2, most: MOST },
  polygon: { least: 3, most: MOST },
  box: { least: 2, most: 2 },
  clicks: { least: 3, most: 30 },
};

const NAMES = {
  point: say("point"), line: say("line"), path: say("path"), polygon: say("polygon"),
  box: say("box"), clicks: say("series of clicks"),
};

/** What people call the shape. */
export const called = (shape) => NAMES[shape];

/**
 * What keeps the points from being this shape, in the reader's words; "" if nothing does.
 * @param {string} shape
 * @param {Point[]} points
 * @param {number} corners an exact number of points, or 0
 */
export function complaint(shape, points, corners = 0) {
  const { least, most } = limits(shape, corners);
  if (points.length < least) {
    return say("A {shape} needs {points}. Add {n} more.",
      { shape: called(shape), points: counted(least), n: least - points.length });
  }
  if (points.length > most) {
    return say("A {shape} here has {points}. Remove {n}.",
      { shape: called(shape), points: counted(most), n: points.length - most });
  }
  return "";
}

export const counted = (number) => (number === 1 ? say("1 point") : say("{n} points", { n: number }));

function limits(shape, corners) {
  return corners ? { least: corners, most: corners } : SHAPES[shape];
}

/** Whether the shape takes no further point. */
export const isFull = (shape, points, corners = 0) => points.length >= limits(shape, corners).most;

/** The points with one more; a single point moves instead, a full shape stays, and the same place counts once but for clicks. */
export function placed(shape, points, at, corners = 0) {
  if (shape === "point") return [at];
  const again = shape !== "clicks" && points.length > 0 && points.at(-1).join() === at.join();
  return again || isFull(shape, points, corners) ? points : [...points, at];
}

export const moved = (points, index, to) => points.map((point, i) => (i === index ? to : point));

/** The index of the point that is nearest to a place. */
export function nearestOf(points, [x, y]) {
  const away = points.map(([px, py]) => Math.hypot(px - x, py - y));
  return away.indexOf(Math.min(...away));
}

export const without = (points, index) => points.filter((_, i) => i !== index);

/** The points with one more halfway between `index` and its follower (of the last: its predecessor). */
export function halved(points, index) {
  if (points.length < 2) return points;
  const first = Math.min(index, points.length - 2);
  const [[ax, ay], [bx, by]] = points.slice(first);
  return points.toSpliced(first + 1, 0, [(ax + bx) / 2, (ay + by) / 2]);
}

/** What is said of a point, such as "Point 2 of a line". */
export function pointName(shape, index) {
  const n = index + 1;
  if (shape === "point") return say("Point");
  if (shape === "clicks") return say("Click {n}", { n });
  if (shape === "box") return say("Corner {n} of a box", { n });
  return say("Point {n} of a {shape}", { n, shape: called(shape) });
}

/** What is said of a point that was placed or moved. @param {string} at its place, in words */
export function pointPlaced(shape, index, at) {
  const n = index + 1;
  if (shape === "point") return say("Point at {at}.", { at });
  if (shape === "clicks") return say("Click {n} at {at}.", { n, at });
  if (shape === "box") return say("Corner {n} of a box at {at}.", { n, at });
  return say("Point {n} of a {shape} at {at}.", { n, shape: called(shape), at });
}

/** The corners that are joined by legs, in drawing order. */
export function outline(shape, points) {
  if (shape !== "box" || points.length < 2) return points;
  const [[ax, ay], [bx, by]] = points;
  return [[ax, ay], [bx, ay], [bx, by], [ax, by]];
}

const isClosed = (shape, points) => (shape === "box" || shape === "polygon") && points.length > 1;

/** @returns {string} data for an SVG path; "" for fewer than two points */
export function pathData(shape, points) {
  const corners = outline(shape, points);
  if (corners.length < 2 || shape === "clicks") return "";
  return `M${corners.map((corner) => corner.join(" ")).join("L")}${isClosed(shape, points) ? "Z" : ""}`;
}

/** Pixels from a place to the shape: 0 inside a closed one. */
export function distanceTo(shape, points, at) {
  const corners = outline(shape, points);
  if (corners.length === 1) return Math.hypot(corners[0][0] - at[0], corners[0][1] - at[1]);
  if (isClosed(shape, points) && surrounds(corners, at)) return 0;
  const ring = isClosed(shape, points) ? [...corners, corners[0]] : corners;
  return Math.min(...ring.slice(1).map((end, i) => distanceToLeg(ring[i], end, at)));
}

function distanceToLeg([ax, ay], [bx, by], [x, y]) {
  const length2 = (bx - ax) ** 2 + (by - ay) ** 2;
  const along = length2 ? ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length2 : 0;
  const t = Math.min(Math.max(along, 0), 1);
  return Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay));
}

function surrounds(corners, [x, y]) {
  let inside = false;
  corners.forEach(([bx, by], i) => {
    const [ax, ay] = corners.at(i - 1);
    if ((ay > y) !== (by > y) && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) inside = !inside;
  });
  return inside;
}

/** [left, top, width, height] of what the points span. */
export function extent(points) {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return [left, top, Math.max(...xs) - left, Math.max(...ys) - top];
}
