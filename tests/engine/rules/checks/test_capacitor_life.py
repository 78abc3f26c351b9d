"""Ten-kelvin rule: 2000 h at 105 °C are 8000 h at 85 °C (2000 · 2²)."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL
from teardowns.engine.rules.checks.capacitor_life import capacitor_life
from tests.engine.make import NAN
from tests.engine.rules.ask import checks


def test_twenty_kelvin_below_the_rating_lasts_four_times_the_rated_life():
    numbers = capacitor_life(85.0).numbers
    assert (numbers["hours_105"], numbers["hours_85"]) == (8000.0, 2000.0)


@pytest.mark.parametrize("celsius, hours", [(105.0, 2000.0), (95.0, 4000.0), (115.0, 1000.0)])
def test_ten_kelvin_are_a_factor_of_two(celsius, hours):
    assert capacitor_life(celsius).numbers["hours_105"] == hours


def test_it_informs_and_judges_nothing():
    found = capacitor_life(85.0)
    assert found.outcome == CANNOT_TELL
    assert "about 8000\u202fh" in found.sentence and "claims no life" in found.sentence


def test_beyond_fifteen_years_no_number_is_given():
    # 45 °C: 2000 · 2⁶ = 128 000 h, 14.6 years; 40 °C: 181 000 h, 20.7 years.
    assert "about 130000\u202fh" in capacitor_life(45.0).sentence
    assert "more than 15 years" in capacitor_life(40.0).sentence


def test_without_a_temperature_there_is_nothing_to_say():
    assert capacitor_life(NAN) is None


def test_it_is_said_once_a_unit():
    seen = [("bulk_capacitor_temperature", 85.0, 1.5)]
    assert len(checks(capacitor_life, seen, [(5.0, 2.0, 10.0), (9.0, 2.0, 18.0)])) == 1
