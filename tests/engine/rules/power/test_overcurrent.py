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
    assert plausibility(1.0, [(5.0, 2.0, NAN)]) < 0.01


def test_a_trip_just_above_the_claim_is_what_a_charger_should_do():
    assert plausibility(2.3, [(5.0, 2.0, NAN)]) == pytest.approx(0.5, abs=0.05)


def test_a_trip_at_5_volts_says_nothing_about_20():
    claims = [(5.0, 3.0, NAN), (20.0, 2.25, NAN)]
    assert plausibility(2.0, claims, claim=0) < 0.01
    assert plausibility(2.0, claims, claim=1) == pytest.approx(0.5, abs=0.02)


def test_a_trip_at_20_volts_caps_the_power_at_9():
    # 1 A at 20 V are 20 W: not the 45 W claimed at 9 V.
    assert plausibility(1.0, [(9.0, 5.0, NAN), (20.0, 2.25, NAN)], volts=20.0) < 0.01
