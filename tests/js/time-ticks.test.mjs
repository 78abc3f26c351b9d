import assert from "node:assert/strict";
import { test } from "node:test";

import { timeTicks } from "../../static/js/lib/time-ticks.js";

// The same cases stand in tests/figures/test_time_axis.py: both charts must tick alike.
const CASES = [
  [0, 1800, 7, "min", ["0", "5", "10", "15", "20", "25", "30"]],
  [0, 7200, 5, "min", ["0", "30", "60", "90", "120"]],
  [0, 86400, 5, "h", ["0", "6", "12", "18", "24"]],
  [0, 60, 7, "s", ["0", "10", "20", "30", "40", "50", "60"]],
  [0, 0.5, 6, "ms", ["0", "100", "200", "300", "400", "500"]],
  [0, 40e-6, 5, "µs", ["0", "10", "20", "30", "40"]],
  [7200, 7200.005, 6, "s",
    ["7200.000", "7200.001", "7200.002", "7200.003", "7200.004", "7200.005"]],
  [-1e-3, 1e-3, 5, "ms", ["−1.0", "−0.5", "0.0", "0.5", "1.0"]],
  [3, 3, 5, "s", ["3"]],
];

for (const [start, end, most, unit, labels] of CASES) {
  test(`ticks from ${start} s to ${end} s stand on round times`, () => {
    const found = timeTicks(start, end, most);
    assert.equal(found.unit, unit);
    assert.deepEqual(found.ticks.map(({ label }) => label), labels);
  });
}

test("a tick says its time in seconds", () => {
  assert.deepEqual(timeTicks(0, 1800, 3).ticks.map(({ at }) => at), [0, 900, 1800]);
});
