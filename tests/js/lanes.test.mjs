import assert from "node:assert/strict";
import { test } from "node:test";

import { lanes, together } from "../../static/js/lib/lanes.js";

test("spans that follow each other share a lane, spans that overlap do not", () => {
  const spans = [[0, 40], [30, 70], [60, 100]].map(([start, end]) => ({ start, end, text: "A" }));
  assert.deepEqual(lanes(spans, 100).map(({ lane }) => lane), [0, 1, 0]);
});

test("letters of instants beside each other do not overlap", () => {
  const spans = [10, 12].map((at) => ({ start: at, end: at, text: "A" }));
  assert.deepEqual(lanes(spans, 100).map(({ lane }) => lane), [0, 1]);
});

test("a letter at the edge stays on the drawing", () => {
  const [{ middle }] = lanes([{ start: 0, end: 0, text: "ABC" }], 100, 8);
  assert.equal(middle, 14);          // half of three characters of 8 px, and 2 px
});

test("results of one span are named together", () => {
  const spans = ["A", "B", "C", "D", "E"].map((letter, i) =>
    ({ letter, start: i === 1 ? 5 : 0, end: 9 }));
  assert.deepEqual(together(spans).map(({ text }) => text), ["A, C–E", "B"]);
});
