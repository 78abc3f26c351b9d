import assert from "node:assert/strict";
import { test } from "node:test";

import { direction, nudged, onPicture } from "../../static/js/lib/nudge.js";

const SIZE = [400, 300];

test("each arrow moves by the step, y downwards", () => {
  assert.deepEqual(nudged([10, 10], "ArrowLeft", 1, SIZE), [9, 10]);
  assert.deepEqual(nudged([10, 10], "ArrowRight", 10, SIZE), [20, 10]);
  assert.deepEqual(nudged([10, 10], "ArrowUp", 1, SIZE), [10, 9]);
  assert.deepEqual(nudged([10, 10], "ArrowDown", 2.5, SIZE), [10, 12.5]);
});

test("another key moves nothing", () => {
  assert.equal(nudged([10, 10], "a", 1, SIZE), null);
  assert.equal(direction("Enter"), undefined);
});

test("a point stays on the picture, its edges included", () => {
  assert.deepEqual(nudged([395, 3], "ArrowRight", 10, SIZE), [400, 3]);
  assert.deepEqual(onPicture([-1, 301], SIZE), [0, 300]);
});
