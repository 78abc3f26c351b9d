import assert from "node:assert/strict";
import { test } from "node:test";

import { cutAfter, pointedAt } from "../../static/js/lib/option-list.js";

test("down goes from the box through the options and back to the box", () => {
  const places = [-1];
  for (let n = 0; n < 4; n++) places.push(pointedAt("ArrowDown", places.at(-1), 3));
  assert.deepEqual(places, [-1, 0, 1, 2, -1]);
});

test("up goes the other way round", () => {
  const places = [-1];
  for (let n = 0; n < 4; n++) places.push(pointedAt("ArrowUp", places.at(-1), 3));
  assert.deepEqual(places, [-1, 2, 1, 0, -1]);
});

test("other keys, and any key where there is no list, are left to the box", () => {
  assert.equal(pointedAt("a", 1, 3), null);
  assert.equal(pointedAt("ArrowDown", -1, 0), null);
});

test("what was typed is told from how it goes on", () => {
  assert.deepEqual(cutAfter("Brethuld B5", "breth"), ["Breth", "uld B5"]);
  assert.deepEqual(cutAfter("Umberlisk", "umbre"), ["", "Umberlisk"]);
});
