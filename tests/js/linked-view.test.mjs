import assert from "node:assert/strict";
import { test } from "node:test";

import {
  WHOLE, keyed, pinched, pushed, rulerLength, viewBox, zoomed,
} from "../../static/js/lib/linked-view.js";

const SIZE = { width: 80, height: 60 };        // mm

/** The millimetre that stands at a place of the box. */
const at = (view, [across, down]) => {
  const [x, y, width, height] = viewBox(view, SIZE);
  return [x + across * width, y + down * height];
};
const close = (actual, expected) => actual.forEach((value, i) => assert.ok(
  Math.abs(value - expected[i]) < 1e-9, `${actual} is not ${expected}`));

test("at first the whole window is shown", () => {
  assert.deepEqual(viewBox(WHOLE, SIZE), [0, 0, 80, 60]);
});

test("the place that is enlarged about stays where it is", () => {
  for (const place of [[0.5, 0.5], [0.2, 0.9], [0, 0]]) {
    close(at(zoomed(WHOLE, SIZE, 3, place), place), at(WHOLE, place));
  }
});

test("nothing is smaller than whole and nothing closer than twenty times", () => {
  assert.equal(zoomed(WHOLE, SIZE, 0.1).zoom, 1);
  assert.equal(zoomed(WHOLE, SIZE, 1e6).zoom, 20);
});

test("a push by half of the box moves half of what is shown", () => {
  const closer = zoomed(WHOLE, SIZE, 4);                   // 20 by 15 mm from (30, 22.5)
  close(viewBox(pushed(closer, SIZE, [0.5, 0]), SIZE), [20, 22.5, 20, 15]);
});

test("the view never leaves the window", () => {
  const closer = zoomed(WHOLE, SIZE, 2);
  close(viewBox(pushed(closer, SIZE, [9, 9]), SIZE), [0, 0, 40, 30]);
  close(viewBox(pushed(closer, SIZE, [-9, -9]), SIZE), [40, 30, 40, 30]);
  assert.deepEqual(pushed(WHOLE, SIZE, [0.3, 0.3]), WHOLE);
});

test("two fingers that part by twice enlarge by two about their middle", () => {
  const view = pinched(WHOLE, SIZE, [[0.4, 0.5], [0.6, 0.5]], [[0.3, 0.5], [0.7, 0.5]]);
  assert.ok(Math.abs(view.zoom - 2) < 1e-9);
  close(at(view, [0.5, 0.5]), [40, 30]);
});

test("two fingers at one place enlarge nothing", () => {
  assert.equal(pinched(WHOLE, SIZE, [[0.5, 0.5], [0.5, 0.5]], [[0.1, 0.1], [0.9, 0.9]]).zoom, 1);
});

test("the ruler is the longest round length that takes at most half", () => {
  assert.equal(rulerLength(WHOLE, SIZE), 20);              // 40 mm are half
  assert.equal(rulerLength(zoomed(WHOLE, SIZE, 4), SIZE), 10);
  assert.equal(rulerLength(zoomed(WHOLE, SIZE, 20), SIZE), 2);
});

test("arrows look to their side, signs enlarge, zero shows the whole", () => {
  const closer = zoomed(WHOLE, SIZE, 2);
  assert.ok(keyed(closer, SIZE, "ArrowRight").x > closer.x);
  assert.ok(keyed(closer, SIZE, "ArrowUp").y < closer.y);
  assert.ok(keyed(closer, SIZE, "+").zoom > 2 && keyed(closer, SIZE, "-").zoom < 2);
  assert.deepEqual(keyed(closer, SIZE, "0"), WHOLE);
});

test("other keys mean nothing here", () => {
  for (const key of ["Tab", "a", "Enter", "PageDown"]) assert.equal(keyed(WHOLE, SIZE, key), null);
});
