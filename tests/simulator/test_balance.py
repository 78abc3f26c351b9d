"""A unit's heat and its bus: sums that have to come out."""
import numpy as np
import pytest

from . import balance
from .chargers import draw_chargers
from .habits import USUAL


@pytest.fixture(scope="module")
def chargers():
    return draw_chargers(800, np.random.default_rng(8), USUAL)


def test_efficiencies_lie_where_those_of_chargers_lie(chargers):
    # brackets handed down for unmeasured units: 0.65 to 0.82 at 3 to 8 W, 0.85 to 0.94 above 30 W
    power = chargers.capability(230.0)
    found = power / chargers.warm(power, 230.0).input_power
    small, large = (power > 3) & (power < 8), (power > 30) & (power < 70)
    assert 0.65 < np.median(found[small]) < 0.84
    assert 0.85 < np.median(found[large]) < 0.94


def test_temperatures_rise_with_the_load(chargers):
    power = chargers.capability(230.0)
    half, full = (chargers.warm(part * power, 230.0) for part in (0.5, 1.0))
    for name in ("case", "air", "winding", "switch", "rectifier", "capacitor"):
        assert np.all(getattr(full, name) > getattr(half, name))


def test_the_air_inside_is_warmer_than_the_case_and_cooler_than_the_parts(chargers):
    state = chargers.warm(chargers.capability(230.0), 230.0)
    assert np.all(state.air > state.case)
    assert np.all(state.winding > state.air)
    assert np.all(state.hot_spot >= state.case)


def test_one_more_round_changes_nothing(chargers, monkeypatch):
    power = chargers.capability(230.0)
    before = chargers.warm(power, 230.0)
    monkeypatch.setattr(balance, "ROUNDS", balance.ROUNDS + 4)
    assert chargers.warm(power, 230.0).winding == pytest.approx(before.winding, abs=0.5)


def test_where_bus_and_converter_meet_neither_gives_less(chargers):
    supply = chargers.supply(chargers.mains_low)
    plain = ~chargers.mains_side.corrector
    valley = 2 * supply.bus - chargers.mains_side.crest(chargers.mains_low)
    able = chargers.abilities.at(valley, "power")
    assert np.all((able > 0.995 * supply.power) | ~plain)
    held = chargers.mains_side.power(chargers.mains_low, 0.999 * valley)
    assert np.all((held > 0.995 * supply.power) | ~plain)
