import assert from "node:assert/strict";
import { test } from "node:test";

import { apartText, sentence } from "../../static/js/chart/readout.js";

const THIN = "\u202f";
const ROWS = {
  time: [0, 0.5, 1],
  channels: [
    { label: "Output voltage", unit: "V", step: 0.01, values: [5, 4.9, 4.8] },
    { label: "Output power", unit: "W", step: 0, values: [1, null, 2] },
  ],
};

test("a sentence reads every channel at the last cursor", () => {
  assert.equal(sentence(ROWS, [0.5], [0, 1]),
    `500${THIN}ms: Output voltage 4.90${THIN}V, Output power no reading.`);
});

test("two cursors tell the time between them and its frequency", () => {
  assert.equal(apartText([0.5, 1]), `+500.0${THIN}ms, 1/\u2060Δt 2.000${THIN}Hz`);       // 1 / 0.5 s
  assert.ok(sentence(ROWS, [0.5, 1], [0, 1]).endsWith(`Difference: ${apartText([0.5, 1])}.`));
});

test("two cursors on one sample have no frequency", () => {
  assert.equal(apartText([1, 1]), `0${THIN}s`);
});
