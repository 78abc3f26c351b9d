"""Beyond its over-current point a port gives no more."""
import pytest

from teardowns.engine.rules.power.overcurrent import overcurrent
from tests.engine.make import NAN, WIDE, judge
from tests.engine.rules import ask


def plausibility(point, claims, volts=5.0, claim=0):
    done = judge([*WIDE, ("overcurrent_point", point, 0.01, 100.0, volts)], claims)
    return float(done.judged.plausibility[claim])


def test_its_power_is_its_current_at_its_voltage():
    assert ask.value(overcurrent, 2.3, 5.0) == pytest.approx(11.5)


def test_less_current_than_claimed_refutes():
    # One test in fifty is spoilt: odds of 0.02 : 1.
    assert plausibility(1.0, [(5.0, 2.0, NAN)]) == pytest.approx(0.0196, abs=0.001)


def test_beside_a_load_that_was_lost_it_decides():
    done = judge([*WIDE, ("overcurrent_point", 1.0, 0.01, 100.0, 5.0),
                  ("failed_power", 5.1, 0.05, 100.0, 5.0)], [(5.0, 2.0, NAN)])
    assert done.judged.plausibility[0] < 0.001


def test_a_trip_just_above_the_claim_is_what_a_charger_should_do():
    assert plausibility(2.3, [(5.0, 2.0, NAN)]) == pytest.approx(0.5, abs=0.05)


def test_a_trip_at_5_volts_says_nothing_about_20():
    claims = [(5.0, 3.0, NAN), (20.0, 2.25, NAN)]
    assert plausibility(2.0, claims, claim=0) < 0.03
    assert plausibility(2.0, claims, claim=1) == pytest.approx(0.5, abs=0.02)


def test_a_trip_at_20_volts_caps_the_power_at_9():
    # 1 A at 20 V are 20 W: not the 45 W claimed at 9 V.
    assert plausibility(1.0, [(9.0, 5.0, NAN), (20.0, 2.25, NAN)], volts=20.0) < 0.03
