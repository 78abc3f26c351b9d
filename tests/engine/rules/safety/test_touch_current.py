"""Touch current: measured it decides, computed it bounds."""
import pytest

from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import more_is_never_better


# 0.5 mA: IEC 62368-1, ES1 (from memory).
@pytest.mark.parametrize("current, expected", [
    (0.2e-3, "meets"), (0.49e-3, "cannot tell"), (0.9e-3, "falls short")])
def test_a_measurement_decides(current, expected):
    assert grade_of("touch_current", touch_current=current, touch_current_u=0.05e-3) == expected


# By hand, 2π · 60 Hz · C · 264 V: 2.2 nF + 20 % 0.263 mA; 4.7 nF + 20 % 0.561 mA.
@pytest.mark.parametrize("most, current, expected", [
    (2.64e-9, 0.263e-3, "meets"), (5.64e-9, 0.561e-3, "cannot tell")])
def test_a_bound_never_falls_short(most, current, expected):
    found = asked("touch_current", barrier_capacitance_most=most, rated_voltage_high=240.0)
    assert found.value[0] == pytest.approx(current, rel=2e-3)
    assert grade_of("touch_current", barrier_capacitance_most=most,
                    rated_voltage_high=240.0) == expected


def test_nothing_known_is_an_open_question_unless_no_capacitor_is_there():
    assert grade_of("touch_current") == "cannot tell"
    assert grade_of("touch_current", found_barrier_capacitor=0.0) is None


def test_the_limit_is_from_memory_and_words_no_shortfall():
    found = asked("touch_current", touch_current=2e-3, touch_current_u=1e-5)
    assert found.grade[0] == -1 and found.worded[0] == 0 and found.flagged[0]


def test_more_current_capacitance_or_mains_is_never_better():
    for column in ("touch_current", "barrier_capacitance_most", "rated_voltage_high"):
        more_is_never_better("touch_current", column, 2.0)
