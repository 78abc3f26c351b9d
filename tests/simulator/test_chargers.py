"""The drawn population: the weakest part decides, and the draws follow their priors."""
import numpy as np
import pytest

from .chargers import draw_chargers, draw_efficiency
from .circuit import bus_power, valley_voltage
from .habits import USUAL, Habits


@pytest.fixture(scope="module")
def chargers():
    return draw_chargers(2000, np.random.default_rng(7), USUAL)


def test_the_same_seed_draws_the_same_chargers(chargers):
    again = draw_chargers(2000, np.random.default_rng(7), USUAL)
    assert np.array_equal(again.bulk, chargers.bulk)


def test_capability_never_falls_as_the_mains_rises(chargers):
    assert np.all(chargers.capability(240.0) >= chargers.capability(chargers.mains_low))


def test_no_part_carries_less_than_the_capability(chargers):
    power = chargers.capability(chargers.mains_low)
    bulk = chargers.bus_efficiency * bus_power(
        chargers.bulk, chargers.mains_low, 50.0, chargers.full_wave, chargers.minimum_bus,
        chargers.resistance)
    assert np.all(power <= chargers.hidden)
    assert np.all((power <= bulk) | chargers.corrector)


def test_the_bus_holds_at_the_capability(chargers):
    some = slice(0, 200)
    c = chargers
    drop = np.where(c.full_wave, 1.4, 0.7)
    found = valley_voltage(c.capability(c.mains_low)[some] / c.bus_efficiency[some], c.bulk[some],
                           c.mains_low[some], 50.0, c.full_wave[some], drop[some],
                           c.resistance[some])
    assert np.all((found > c.minimum_bus[some] - 1.0) | c.corrector[some])


def test_at_5_volts_the_current_limit_of_the_port_counts(chargers):
    at_5v = chargers.capability_at(230.0, np.full(2000, 5.0))
    limited = chargers.switchable & (chargers.capability(230.0) > 5 * chargers.current_5v)
    assert limited.any()
    assert at_5v[limited] == pytest.approx(5 * chargers.current_5v[limited])


def test_wider_margins_make_larger_capacitors():
    parts = [draw_chargers(2000, np.random.default_rng(7), Habits(margin=m)).bulk_nominal
             for m in (0.2, 0.6)]
    assert np.mean(np.log(parts[1] / parts[0])) > 0.1


def test_efficiency_follows_its_bracket():
    # triangular (0.55, 0.68, 0.78): mean (0.55 + 0.68 + 0.78) / 3 = 0.670; a half of the makers
    # reads the table at 1.5 times the power, so 1 W stays in the bracket below 3 W
    found = draw_efficiency(np.ones(20_000), np.random.default_rng(1))
    assert found.mean() == pytest.approx(0.670, abs=0.003)
