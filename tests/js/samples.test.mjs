import assert from "node:assert/strict";
import { test } from "node:test";

import { nearest, stepped } from "../../static/js/lib/samples.js";

const TIMES = [0, 1, 2, 10, 11];

test("the nearest sample is found on either side of a hole", () => {
  assert.deepEqual([-5, 0.4, 0.6, 5, 7, 99].map((time) => nearest(TIMES, time)), [0, 0, 1, 2, 3, 4]);
  assert.equal(nearest([3], 8), 0);
  assert.equal(nearest([], 8), -1);
});

test("a step goes to the next sample and stops at the ends", () => {
  assert.equal(stepped(TIMES, 2, 1), 10);
  assert.equal(stepped(TIMES, 0, -1), 0);
  assert.equal(stepped(TIMES, 1, 10), 11);
});
