import assert from "node:assert/strict";
import { test } from "node:test";

import { roomFor } from "../../static/js/lib/label-room.js";

/** A label of 50 px, or 10 px as a number. */
const label = (x, y, extra = {}) =>
  ({ at: [x, y], isLeft: false, isWanted: false, widths: [50, 10], ...extra });

test("labels apart, or one above the other, keep their words", () => {
  assert.deepEqual(roomFor([label(0, 0), label(60, 0), label(0, 20)]), [0, 0, 0]);
});

test("the second of two near labels shows its number", () => {
  assert.deepEqual(roomFor([label(0, 0), label(40, 0)]), [0, -1]);
  assert.deepEqual(roomFor([label(40, 0), label(0, 0)]), [0, 1]);
});

test("where even the number has no room nothing stands", () => {
  assert.deepEqual(roomFor([label(0, 0), label(10, 5)]), [0, -1]);
});

test("the label that is wanted stands, whatever came before it", () => {
  assert.deepEqual(roomFor([label(0, 0), label(10, 5, { isWanted: true })]), [-1, 0]);
});

// Both labels lie between the points: 7 to 57 px, and 110 − 7 − 50 = 53 to 103 px.
test("a label that ends at its point takes the room before it", () => {
  assert.deepEqual(roomFor([label(0, 0), label(110, 0, { isLeft: true })]), [0, 1]);
});

test("no label, no room", () => {
  assert.deepEqual(roomFor([]), []);
});
