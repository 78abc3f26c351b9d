import assert from "node:assert/strict";
import { test } from "node:test";

import { Viewport } from "../../static/js/chart/viewport.js";

const of = (whole = [0, 100]) => new Viewport(whole, () => {});

test("a span that was dragged over fills the view", () => {
  const view = of();
  for (const span of [[20, 30], [0, 50], [90, 100], [25, 26]]) {
    view.all();
    view.zoomTo(span);
    view.span.forEach((end, i) => assert.ok(Math.abs(end - span[i]) < 1e-9, `${view.span}`));
  }
});

test("an empty span and one below a sample do not break it", () => {
  const view = of();
  view.zoomTo([20, 20]);
  assert.deepEqual(view.span, [0, 100]);
  view.least = 4;
  view.zoomTo([20, 20.001]);
  assert.ok(view.span[0] <= 20 && view.span[1] - view.span[0] >= 4 - 1e-9);
});

test("a log of one instant still has a length to draw", () => {
  assert.deepEqual(of([5, 5]).span, [5, 6]);
});

test("who looks is told", () => {
  const told = [];
  const view = new Viewport([0, 100], (says) => told.push(says));
  view.zoom(2);
  view.by(5);
  view.reveal(50);
  assert.deepEqual(told, [true, false]);
});
