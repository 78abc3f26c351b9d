import assert from "node:assert/strict";
import { test } from "node:test";

import { Cursors } from "../../static/js/lib/cursors.js";

test("the free cursor follows and goes with the pointer", () => {
  const cursors = new Cursors();
  cursors.follow(3);
  assert.deepEqual(cursors.times, [3]);
  cursors.leave();
  assert.deepEqual(cursors.times, []);
});

test("after a place the second cursor follows, and the first one stays", () => {
  const cursors = new Cursors();
  cursors.place(3);
  cursors.follow(7);
  assert.deepEqual(cursors.times, [3, 7]);
  cursors.leave();
  assert.deepEqual(cursors.times, [3]);
});

test("once both are placed nothing follows, and the next place begins anew", () => {
  const cursors = new Cursors();
  cursors.place(3);
  cursors.place(7);
  cursors.follow(9);
  assert.deepEqual(cursors.times, [3, 7]);
  cursors.place(5);
  assert.deepEqual([cursors.times, cursors.placed], [[5], 1]);
});

test("keys move the free cursor, or the second of two", () => {
  const cursors = new Cursors();
  cursors.move(1);
  cursors.place(1);
  cursors.place(4);
  cursors.move(6);
  assert.deepEqual([cursors.times, cursors.current], [[1, 6], 6]);
});
