"""Touch current once one of several capacitors in series is a short."""
import pytest

from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better

PART = {"role": "barrier_capacitor", "state": "recorded", "in_series": 1.0, "count": 2.0,
        "rated_voltage_high": 240.0, "tolerance": 0.2}


# By hand, 2π · 60 Hz · C · 264 V: two of 4.7 nF + 20 % in series are 2.82 nF; one shorted 5.64 nF,
# 0.561 mA. Two of 47 nF: 56.4 nF, 5.61 mA, above the 5 mA of ES2 (from memory).
@pytest.mark.parametrize("nominal, most, current, expected", [
    (4.7e-9, 2.82e-9, 0.561e-3, "meets"), (47e-9, 28.2e-9, 5.61e-3, "cannot tell")])
def test_one_of_two_fails(nominal, most, current, expected):
    known = PART | {"nominal": nominal, "barrier_capacitance_most": most}
    assert asked("fault_touch_current", **known).value[0] == pytest.approx(current, rel=2e-3)
    assert grade_of("fault_touch_current", **known) == expected


@pytest.mark.parametrize("more, expected", [
    ({}, "cannot tell"), ({"in_series": 0.0}, None), ({"bridges": "PRI_PE"}, None),
    ({"count": 1.0, "nominal": 1e-9, "barrier_capacitance_most": 1.2e-9}, "cannot tell")])
def test_what_is_not_known_stays_open(more, expected):
    assert grade_of("fault_touch_current", **PART | more) == expected


def test_more_capacitance_or_mains_is_never_better():
    for column in ("barrier_capacitance_most", "rated_voltage_high"):
        more_is_never_better("fault_touch_current", column, 3.0)
