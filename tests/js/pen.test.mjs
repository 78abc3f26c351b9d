import assert from "node:assert/strict";
import { test } from "node:test";

import { Pen } from "../../static/js/annotator/pen.js";

/** A pen on a picture of which one pixel of the screen shows two. */
function pen(shape, points) {
  const made = new Pen({ camera: { pixel: 2 }, size: [1600, 1200], plane: null, say() {}, changed() {} });
  made.sheet = { shape, points, corners: 0 };
  return made;
}

// Twelve pixels of the screen are 24 of the picture.
test("a tap within twelve pixels of a point means it, one beside it is a new one", () => {
  const path = pen("path", [[100, 100], [400, 100]]);
  assert.equal(path.pointMeant([124, 100], 0), 0);
  assert.equal(path.pointMeant([125, 100], 0), -1);
});

test("of two points whose grips overlap the nearer one is meant", () => {
  const path = pen("path", [[100, 100], [130, 100]]);
  assert.equal(path.pointMeant([104, 100], 1), 0);
});

test("a tap on no grip is a new point, and so is the first one", () => {
  assert.equal(pen("path", [[100, 100], [130, 100]]).pointMeant([101, 100], -1), -1);
  assert.equal(pen("path", []).pointMeant([101, 100], -1), -1);
});

test("a shape that takes no more leaves the whole grip to its point, a single point moves", () => {
  assert.equal(pen("line", [[100, 100], [400, 100]]).pointMeant([130, 100], 0), 0);
  assert.equal(pen("point", [[100, 100]]).pointMeant([130, 100], 0), -1);
});
