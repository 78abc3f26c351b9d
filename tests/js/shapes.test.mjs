import assert from "node:assert/strict";
import { test } from "node:test";

import {
  complaint, distanceTo, extent, halved, isFull, moved, nearestOf, pathData, placed, pointName,
  pointPlaced, without,
} from "../../static/js/lib/shapes.js";

const SQUARE = [[0, 0], [10, 0], [10, 10], [0, 10]];

test("a line of one point says how many are missing", () => {
  assert.equal(complaint("line", [[0, 0]]), "A line needs 2 points. Add 1 more.");
});

test("a box of four points says how many are too many", () => {
  assert.equal(complaint("box", SQUARE), "A box here has 2 points. Remove 2.");
});

test("a polygon may have three points, of a card it must have four", () => {
  assert.equal(complaint("polygon", SQUARE.slice(0, 3)), "");
  assert.equal(complaint("polygon", SQUARE.slice(0, 3), 4), "A polygon needs 4 points. Add 1 more.");
  assert.ok(isFull("polygon", SQUARE, 4));
  assert.ok(!isFull("polygon", SQUARE));
});

test("a path takes point after point", () => {
  assert.deepEqual(placed("path", [[0, 0], [1, 1]], [2, 2]), [[0, 0], [1, 1], [2, 2]]);
});

test("the nearest point is found, of two alike the first", () => {
  assert.equal(nearestOf(SQUARE, [9, 8]), 2);
  assert.equal(nearestOf(SQUARE, [5, 0]), 0);
});

test("a full line stays as it is, a single point moves", () => {
  const line = [[0, 0], [5, 5]];
  assert.equal(placed("line", line, [9, 9]), line);
  assert.deepEqual(placed("point", [[0, 0]], [9, 9]), [[9, 9]]);
});

test("the same place twice in a row counts once", () => {
  const path = [[0, 0], [5, 5]];
  assert.equal(placed("path", path, [5, 5]), path);
});

test("the same point may be clicked on the same pixel again, and no line joins the clicks", () => {
  const clicks = placed("clicks", [[5, 5]], [5, 5]);
  assert.deepEqual(clicks, [[5, 5], [5, 5]]);
  assert.equal(pathData("clicks", clicks), "");
  assert.equal(pointName("clicks", 1), "Click 2");
  assert.equal(complaint("clicks", clicks), "A series of clicks needs 3 points. Add 1 more.");
  assert.ok(isFull("clicks", Array(30).fill([5, 5])));
});

test("points are moved, removed and added halfway without touching the old ones", () => {
  const before = [[0, 0], [10, 0], [10, 4]];
  assert.deepEqual(moved(before, 1, [7, 7]), [[0, 0], [7, 7], [10, 4]]);
  assert.deepEqual(without(before, 0), [[10, 0], [10, 4]]);
  assert.deepEqual(halved(before, 0), [[0, 0], [5, 0], [10, 0], [10, 4]]);
  assert.deepEqual(halved(before, 2), [[0, 0], [10, 0], [10, 2], [10, 4]]);
  assert.deepEqual(before, [[0, 0], [10, 0], [10, 4]]);
});

test("a path is open, a polygon and a box are closed", () => {
  assert.equal(pathData("path", SQUARE), "M0 0L10 0L10 10L0 10");
  assert.equal(pathData("polygon", SQUARE), "M0 0L10 0L10 10L0 10Z");
  assert.equal(pathData("box", [[0, 0], [10, 10]]), "M0 0L10 0L10 10L0 10Z");
  assert.equal(pathData("point", [[3, 3]]), "");
});

// By hand: (5, 3) lies 3 above the leg y = 0; (13, 14) lies 3-4-5 beyond the corner (10, 10).
test("distance to a path is to its nearest leg or end", () => {
  assert.equal(distanceTo("path", SQUARE.slice(0, 3), [5, 3]), 3);
  assert.equal(distanceTo("path", SQUARE.slice(0, 3), [13, 14]), 5);
});

test("inside a closed shape the distance is 0, outside it counts from the edge", () => {
  assert.equal(distanceTo("polygon", SQUARE, [5, 5]), 0);
  assert.equal(distanceTo("box", [[10, 10], [0, 0]], [5, 5]), 0);
  assert.equal(distanceTo("polygon", SQUARE, [12, 5]), 2);
});

test("the closing leg of a polygon counts, a leg without length is a point", () => {
  assert.equal(distanceTo("polygon", SQUARE, [-2, 5]), 2);
  assert.equal(distanceTo("line", [[1, 1], [1, 1]], [4, 5]), 5);
  assert.equal(distanceTo("point", [[1, 1]], [4, 5]), 5);
});

test("a notch of a polygon is outside", () => {
  const notched = [[0, 0], [10, 0], [10, 10], [5, 4], [0, 10]];
  assert.ok(distanceTo("polygon", notched, [5, 8]) > 0);
  assert.equal(distanceTo("polygon", notched, [5, 2]), 0);
});

test("points are named by their place in the shape", () => {
  assert.equal(pointName("line", 1), "Point 2 of a line");
  assert.equal(pointName("box", 0), "Corner 1 of a box");
  assert.equal(pointName("point", 0), "Point");
});

test("an extent is left, top, width, height", () => {
  assert.deepEqual(extent([[3, 9], [1, 4], [2, 2]]), [1, 2, 2, 7]);
});

test("a point that was placed says which it is and where", () => {
  const said = ["point", "clicks", "box", "path"].map((shape) => pointPlaced(shape, 1, "12.5, 40"));
  assert.deepEqual(said, ["Point at 12.5, 40.", "Click 2 at 12.5, 40.",
    "Corner 2 of a box at 12.5, 40.", "Point 2 of a path at 12.5, 40."]);
});
