import assert from "node:assert/strict";
import { test } from "node:test";

import {
  around, asked, leastLength, moved, pinched, revealing, suffices, within, zoomed,
} from "../../static/js/lib/log-view.js";

const WHOLE = [0, 100];

test("zooming keeps the time under the pointer in its place", () => {
  assert.deepEqual(zoomed(WHOLE, WHOLE, 2, 25), [12.5, 62.5]);    // 25 stays at a quarter
});

test("no view is longer than the log or shorter than a few samples", () => {
  assert.deepEqual(zoomed([10, 20], WHOLE, 1 / 1000), WHOLE);
  assert.deepEqual(zoomed([10, 20], WHOLE, 1000, 15, 4), [13, 17]);
});

test("a view stops at the ends of the log", () => {
  assert.deepEqual(moved([10, 30], WHOLE, -50), [0, 20]);
  assert.deepEqual(moved([10, 30], WHOLE, 500), [80, 100]);
  assert.deepEqual(within([-50, 500], WHOLE), WHOLE);
});

test("a cursor beyond the edge brings the view along", () => {
  assert.deepEqual(revealing([10, 20], WHOLE, 15), [10, 20]);
  assert.deepEqual(revealing([10, 20], WHOLE, 21), [12, 22]);     // a tenth of 10 s beyond it
  assert.deepEqual(revealing([10, 20], WHOLE, 9), [8, 18]);
});

test("a span is shown with room on both sides, an instant too", () => {
  assert.deepEqual(around([40, 60], WHOLE, 0), [30, 70]);
  assert.deepEqual(around([50, 50], WHOLE, 0), [49, 51]);
});

test("two fingers that spread zoom, two that move along move the view", () => {
  assert.deepEqual(pinched(WHOLE, WHOLE, [0.25, 0.75], [0, 1], 0), [25, 75]);
  const aside = pinched([40, 60], WHOLE, [0.2, 0.4], [0.4, 0.6], 0);
  assert.ok(Math.abs(aside[0] - 36) < 1e-9 && Math.abs(aside[1] - 56) < 1e-9);
});

test("the closest view holds four samples", () => {
  assert.equal(leastLength([0, 2, 3, 7]), 4);
  assert.equal(leastLength([1]), 0);
});

test("more is asked for than is in view, within the log", () => {
  assert.deepEqual(asked([40, 60], WHOLE), [30, 70]);
  assert.deepEqual(asked([0, 60], WHOLE), [0, 90]);
});

test("rows suffice while they cover the view finely enough", () => {
  assert.equal(suffices(null, WHOLE), false);
  assert.equal(suffices({ span: [30, 70], all: false }, [40, 60]), true);
  assert.equal(suffices({ span: [30, 70], all: false }, [60, 80]), false);
  assert.equal(suffices({ span: [0, 100], all: false }, [40, 60]), false);
  assert.equal(suffices({ span: [0, 100], all: true }, [40, 60]), true);
});
