import pytest

from teardowns.figures.time_axis import time_ticks

# The same cases stand in tests/js/time-ticks.test.mjs: both charts must tick alike.
CASES = [
    # start, end, most, unit, labels; each worked out by hand
    (0, 1800, 7, "min", ["0", "5", "10", "15", "20", "25", "30"]),
    (0, 7200, 5, "min", ["0", "30", "60", "90", "120"]),
    (0, 86400, 5, "h", ["0", "6", "12", "18", "24"]),
    (0, 60, 7, "s", ["0", "10", "20", "30", "40", "50", "60"]),
    (0, 0.5, 6, "ms", ["0", "100", "200", "300", "400", "500"]),
    (0, 40e-6, 5, "µs", ["0", "10", "20", "30", "40"]),
    (7200, 7200.005, 6, "s", ["7200.000", "7200.001", "7200.002", "7200.003", "7200.004",
                             "7200.005"]),
    (-1e-3, 1e-3, 5, "ms", ["−1.0", "−0.5", "0.0", "0.5", "1.0"]),
    (3, 3, 5, "s", ["3"]),
]


@pytest.mark.parametrize(("start", "end", "most", "unit", "labels"), CASES)
def test_ticks_stand_on_round_times(start, end, most, unit, labels):
    ticks = time_ticks(start, end, most)
    assert (ticks.unit, list(ticks.labels)) == (unit, labels)


def test_ticks_lie_within_the_span():
    ticks = time_ticks(95, 1234)
    assert all(95 <= at <= 1234 for at in ticks.at)
    assert ticks.at[0] == 300 and ticks.labels[0] == "5"      # 1139 s: 5 min steps, from 95 s on
