import assert from "node:assert/strict";
import { test } from "node:test";

import { legs, planeOf, printedLegs } from "../../static/js/lib/plane-lengths.js";

test("without a scale there is no length", () => {
  assert.equal(planeOf({}), null);
  assert.equal(planeOf({ mmPerPx: "0" }), null);
  assert.equal(planeOf({ homography: "1 0 0 0 1 0 0 0" }), null);
});

// 3-4-5: 300 and 400 px at 0.01 mm are 3 and 4 mm.
test("a two-point scale multiplies", () => {
  const plane = planeOf({ mmPerPx: "0.01" });
  assert.deepEqual(legs([[0, 0], [300, 400], [300, 400]], plane), [5, 0]);
});

// w = 1 + x/1000: (1000, 0) goes to 1000/2 = 500, (0, 500) stays, so the leg is 500 √2.
test("a homography divides by its third row", () => {
  const plane = planeOf({ homography: "1 0 0 0 1 0 0.001 0 1" });
  assert.deepEqual(plane([1000, 0]), [500, 0]);
  assert.ok(Math.abs(legs([[1000, 0], [0, 500]], plane)[0] - 500 * Math.SQRT2) < 1e-9);
});

test("a line prints its length, a path also the whole way", () => {
  assert.equal(printedLegs([4.2]), "4.20\u202Fmm");
  assert.equal(printedLegs([7.5, 4.216]), "4.22\u202Fmm, in all 11.72\u202Fmm, along the line");
});

test("nothing is printed without a leg, or beyond the horizon of the plane", () => {
  assert.equal(printedLegs([]), "");
  assert.equal(printedLegs([Infinity]), "");
  assert.equal(printedLegs([NaN, 1]), "");
});
