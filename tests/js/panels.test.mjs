import assert from "node:assert/strict";
import { test } from "node:test";

// panels.js makes a probe of the page's colours only when a chart is made.
import { decimals, grouped, ticksThatFit } from "../../static/js/chart/panels.js";

test("no number of an axis is rounded", () => {
  assert.deepEqual([1, 0.5, 0.025, 20, 0.0002].map(decimals), [0, 1, 3, 0, 4]);
});

test("channels of one panel stand together, in the order of the file", () => {
  const channels = [["U", "V"], ["I", "A"], ["I", "A"]].map(([panel, unit]) => ({ panel, unit }));
  assert.deepEqual(grouped(channels).map(({ title, channels: of }) => [title, of.length]),
    [["U", 1], ["I", 2]]);
});

test("a narrow chart has fewer numbers, and never fewer than it can", () => {
  const labels = (width) => ticksThatFit([0, 1800], width).ticks.map(({ label }) => label);
  assert.deepEqual(labels(150), ["0", "10", "20", "30"]);     // 4 · 20 + 7 · 7.5 = 132.5 px
  assert.deepEqual(labels(60), ["0", "30"]);
});
