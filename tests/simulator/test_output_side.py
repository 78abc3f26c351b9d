"""Output parts: ratings above what flows, by what makers leave."""
import numpy as np
import pytest

from .catalogue import CAPACITOR_RATING, RECTIFIER, RECTIFIER_VOLTAGE
from .chargers import draw_chargers
from .habits import USUAL
from .output_side import POLYMER


@pytest.fixture(scope="module")
def chargers():
    return draw_chargers(1500, np.random.default_rng(6), USUAL)


def test_ratings_come_from_the_catalogue(chargers):
    out = chargers.output_side
    assert np.isin(out.rectifier_rating[~out.synchronous], RECTIFIER).all()
    assert np.isin(out.rectifier_voltage, RECTIFIER_VOLTAGE).all()
    assert np.isin(out.capacitor_rating, CAPACITOR_RATING).all()


def test_a_rectifier_is_a_diode_or_a_transistor(chargers):
    out = chargers.output_side
    assert np.array_equal(np.isnan(out.rectifier_rating), out.synchronous)
    assert np.array_equal(np.isnan(out.on_resistance), ~out.synchronous)


def test_no_rectifier_is_reversed_beyond_its_rating(chargers):
    reverse = chargers.top_voltage + np.sqrt(2) * 264 / chargers.converter.ratio
    assert np.mean(chargers.output_side.rectifier_voltage >= reverse) > 0.99


def test_no_capacitor_is_rated_below_the_output(chargers):
    assert np.all(chargers.output_side.capacitor_rating > chargers.top_voltage)


def test_polymer_cans_carry_more_for_their_size(chargers):
    out = chargers.output_side
    size = out.capacitor_diameter * out.capacitor_length * out.capacitor_count
    each = out.ripple_rating / size
    polymer = out.capacitor_kind == POLYMER
    assert np.median(each[polymer]) > 2 * np.median(each[~polymer])
