"""The mains lead: currents that a plate and a fuse would know."""
import numpy as np
import pytest

from .catalogue import BRIDGE, FUSE
from .chargers import draw_chargers
from .habits import USUAL, Habits


@pytest.fixture(scope="module")
def chargers():
    return draw_chargers(1000, np.random.default_rng(6), USUAL)


def test_a_unit_has_a_fuse_or_a_fusible_resistor(chargers):
    lead = chargers.mains_side
    assert np.array_equal(np.isnan(lead.fusible), ~np.isnan(lead.fuse_rating))
    assert np.isin(lead.fuse_rating[np.isnan(lead.fusible)], FUSE).all()
    assert np.isin(lead.bridge_rating, BRIDGE).all()


def test_power_factor_of_a_capacitor_input(chargers):
    # circuit simulations handed down: 0.58 ± 0.03 at 100 to 120 V, half wave 0.37 ± 0.04
    lead, power = chargers.mains_side, chargers.target / chargers.bus_efficiency_guess
    factor = power / (lead.current(lead.low, power) * lead.low)
    plain = chargers.wide & ~lead.corrector
    assert np.median(factor[plain & lead.full_wave]) == pytest.approx(0.58, abs=0.04)
    assert np.median(factor[plain & ~lead.full_wave]) == pytest.approx(0.37, abs=0.06)


def test_stress_grows_with_power_and_is_below_one_at_the_aim(chargers):
    lead, supply = chargers.mains_side, chargers.supply(chargers.mains_low)
    aim = chargers.target / chargers.bus_efficiency_guess
    one, two = (lead.stress(supply.mains, k * aim, supply.bus) for k in (1.0, 2.0))
    assert np.all(two > one)
    assert np.mean(one > 1) < 0.05


def test_the_corner_asks_for_larger_capacitors():
    usual, corner = (draw_chargers(400, np.random.default_rng(6), habits).mains_side.bulk_nominal
                     for habits in (USUAL, Habits(corner=True)))
    assert np.median(corner / usual) > 1.2
