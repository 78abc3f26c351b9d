import assert from "node:assert/strict";
import { test } from "node:test";

import {
  WHOLE, around, dragged, fit, pinched, showing, toPicture, transform, viewBox, zoomed,
} from "../../static/js/lib/view-box.js";

const SIZE = [4000, 3000];
const BOX = { left: 100, top: 50, width: 800, height: 600 };        // 0.2 screen pixels a pixel
const WIDE = { left: 0, top: 0, width: 1000, height: 600 };         // 100 beside the picture

const close = (actual, expected) =>
  actual.forEach((value, i) => assert.ok(Math.abs(value - expected[i]) < 1e-9, `${actual} is not ${expected}`));

/** Where a place of the picture appears: the image is laid out by `fit`, then transformed. */
function onScreen(view, box, [x, y]) {
  const { scale, left, top } = fit(SIZE, box);
  const { zoom, x: dx, y: dy } = transform(view, SIZE, box);
  return [box.left + dx + zoom * (left + x * scale), box.top + dy + zoom * (top + y * scale)];
}

test("at the fit the box's corner is the picture's", () => {
  close(toPicture(WHOLE, SIZE, BOX, [100, 50]), [0, 0]);
  close(toPicture(WHOLE, SIZE, BOX, [500, 350]), [2000, 1500]);
});

test("a wide box has equal edges beside the picture", () => {
  assert.deepEqual(fit(SIZE, WIDE), { scale: 0.2, left: 100, top: 0 });
  close(toPicture(WHOLE, SIZE, WIDE, [100, 0]), [0, 0]);
});

test("image and pointer agree in every view", () => {
  for (const view of [WHOLE, { x: 700, y: 300, zoom: 3 }, { x: 0, y: 2000, zoom: 9 }]) {
    for (const box of [BOX, WIDE]) {
      close(toPicture(view, SIZE, box, onScreen(view, box, [1234.5, 678.9])), [1234.5, 678.9]);
    }
  }
});

// Zoom 2 about (1000, 600): the distance to the left edge halves, 1000 − 1000/2 = 500.
test("zooming leaves the place under the pointer where it was", () => {
  const view = zoomed(WHOLE, SIZE, BOX, 2, [1000, 600]);
  assert.deepEqual(view, { x: 500, y: 300, zoom: 2 });
  close(onScreen(view, BOX, [1000, 600]), onScreen(WHOLE, BOX, [1000, 600]));
});

// 8 screen pixels a pixel of the picture: 8 / 0.2 = 40.
test("zoom ends at the whole picture and at eight screen pixels a pixel", () => {
  assert.deepEqual(zoomed({ x: 500, y: 300, zoom: 2 }, SIZE, BOX, 0.1, [1000, 600]), WHOLE);
  assert.equal(zoomed(WHOLE, SIZE, BOX, 1000, [0, 0]).zoom, 40);
});

test("a picture smaller than its box may still be zoomed out to the whole", () => {
  assert.equal(zoomed(WHOLE, [20, 15], BOX, 3, [0, 0]).zoom, 1);
});

test("dragging moves the picture with the finger and stops at its edge", () => {
  const view = { x: 500, y: 300, zoom: 2 };
  assert.deepEqual(dragged(view, SIZE, [1000, 1000], [900, 1050]), { x: 600, y: 250, zoom: 2 });
  assert.deepEqual(dragged(view, SIZE, [0, 0], [9999, 9999]), { x: 0, y: 0, zoom: 2 });
  assert.deepEqual(dragged(view, SIZE, [9999, 9999], [0, 0]), { x: 2000, y: 1500, zoom: 2 });
});

test("what lay between two fingers stays between them", () => {
  const before = [[400, 350], [600, 350]];
  const after = [[320, 380], [720, 380]];       // twice as far apart, middle 20 right and 30 down
  const view = pinched(WHOLE, SIZE, BOX, before, after);
  assert.equal(view.zoom, 2);
  close(onScreen(view, BOX, toPicture(WHOLE, SIZE, BOX, [500, 350])), [520, 380]);
});

test("two fingers at one place move the picture but do not zoom it", () => {
  const view = pinched({ x: 500, y: 300, zoom: 2 }, SIZE, BOX, [[400, 300], [400, 300]], [[360, 300], [480, 300]]);
  assert.equal(view.zoom, 2);
});

// The view is 2000 wide: 3500 must be at 0.9 × 2000 at most, so x = 3500 − 1800 = 1700.
test("a place out of view is brought in, one in view moves nothing", () => {
  const view = { x: 500, y: 300, zoom: 2 };
  assert.deepEqual(showing(view, SIZE, [1500, 1000]), view);
  assert.deepEqual(showing(view, SIZE, [3500, 1000]), { x: 1700, y: 300, zoom: 2 });
});

// 500 wide in half of the view: view 1000 wide, zoom 4, height 750; middle at (1250, 1100).
test("a mark is shown in the middle half", () => {
  const view = around(SIZE, BOX, [1000, 1000, 500, 200]);
  assert.deepEqual(view, { x: 750, y: 725, zoom: 4 });
  assert.deepEqual(viewBox(view, SIZE), [750, 725, 1000, 750]);
});

test("a single point is shown four times as large as the whole", () => {
  assert.equal(around(SIZE, BOX, [2000, 1000, 0, 0]).zoom, 4);
});
