"""Rated voltage of the bulk capacitor."""
import pytest

from tests.engine.rules.safety.asked import asked, grade_of
from tests.engine.rules.safety.monotone import known_grades_as_grows, more_is_never_better


# √2 · 1.1 · 240 V = 373.4 V, of 120 V 186.7 V; repair tutorials name 400 V parts.
@pytest.mark.parametrize("rating, mains, more, expected", [
    (400.0, 240.0, {}, "meets"), (350.0, 240.0, {}, "falls short"), (200.0, 120.0, {}, "meets"),
    (250.0, 240.0, {"voltage_doubler": 0.0}, "falls short"),
    (250.0, 240.0, {"voltage_doubler": 1.0}, "meets"),
    # Two pieces may be the halves of a doubler: 186.7 V.
    (250.0, 240.0, {"bulk_pieces": 2.0}, "cannot tell"),
    (160.0, 240.0, {"bulk_pieces": 2.0}, "falls short"),
    (250.0, 240.0, {"bulk_pieces": 1.0}, "falls short"), (250.0, 240.0, {}, "falls short"),
    (450.0, 240.0, {"power_factor_corrector": 1.0}, "cannot tell"),
    # A unit for 120 V alone that doubles at all times: each half sees the peak, 186.7 V.
    (200.0, 120.0, {"voltage_doubler": 1.0}, "meets"),
    (160.0, 120.0, {"voltage_doubler": 1.0}, "cannot tell"),
    (100.0, 120.0, {}, "falls short"), (160.0, 240.0, {}, "falls short"),
    # 25 V smooth the output of a mains transformer; across the mains they would burst at once.
    (25.0, 240.0, {}, "cannot tell"), (63.0, 120.0, {"voltage_doubler": 1.0}, "cannot tell"),
])
def test_grades(rating, mains, more, expected):
    assert grade_of("bulk_voltage", bulk_capacitor_rating=rating, rated_voltage_high=mains,
                    **more) == expected


def test_the_requirement():
    found = asked("bulk_voltage", bulk_capacitor_rating=400.0, rated_voltage_high=240.0)
    assert found.low[0] == pytest.approx(373.4, abs=0.05)
    assert found.assumed["no_doubler"][0]


# √2 · 1.1 · 100 V = 155.6 V: 200 V parts are usual for 120 V mains.
def test_an_unread_plate_accuses_no_capacitor_for_120_v():
    assert grade_of("bulk_voltage", bulk_capacitor_rating=200.0,
                    voltage_doubler=0.0) == "cannot tell"
    assert grade_of("bulk_voltage", bulk_capacitor_rating=400.0) == "meets"


def test_a_higher_rating_is_never_worse_and_higher_mains_are_never_better():
    # Of a rating that a capacitor for the mains can have at all.
    before, after = known_grades_as_grows("bulk_voltage", "bulk_capacitor_rating")
    assert (after >= before).all()
    more_is_never_better("bulk_voltage", "rated_voltage_high")
