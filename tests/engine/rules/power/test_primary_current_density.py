"""Worked by hand from the ramps of a flyback primary; 4 to 10 A/mm² in AN-22 (5/98), page 8."""
import numpy as np
import pytest

from teardowns.engine.physics.wire import density_of_mils
from teardowns.engine.rules.power.primary_current_density import (
    PRIOR,
    primary_current_density,
)
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import line, questions, value
from tests.engine.rules.designs import HONEST

ID = "power/primary_current_density"
INPUTS = {
    "diameter": 0.16e-3, "strands": 1.0, "efficiency": 0.778, "mains": 100.0, "corrector": 0.0,
    "reflected": 85.0, "frequency": 65e3,
}


def output(**changed):
    return value(primary_current_density, *(INPUTS | changed).values())


def unit(millimetres, strands=1.0, *more):
    return [*WIDE, ("primary_wire_diameter", millimetres * 1e-3, 3e-6),
            ("primary_strands", strands, 0.0), *more]


def moved(millimetres, claim):
    return weight(judge(unit(millimetres), [watts(claim)]), ID)


def test_a_wire_of_0_16_millimetres_at_100_volts():
    # Bus 0.9·√2·100 = 127.28 V, D = 85/(85 + 127.28) = 0.4004, K = 0.8: 0.64/3 − 0.8 + 1 =
    # 0.41333, r = √(0.41333/0.4004)/0.6 = 1.6934; 0.020106 mm²·7 A/mm²/1.6934 = 0.08311 A;
    # 0.8 · 127.28 V · 0.08311 A = 8.463 W without skin effect, at 1 kHz.
    assert output(frequency=1e3) == pytest.approx(8.463, rel=1e-3)


def test_the_usual_density_is_the_middle_of_the_published_practice():
    # AN-18, page 10: 500 to 200 circular mils an ampere, 3.9 to 9.9 A/mm².
    low, high = density_of_mils(500.0) / 1e6, density_of_mils(200.0) / 1e6
    middle = PRIOR.power(np.array([1.0]))[0]
    assert low < middle < high and middle == pytest.approx((low + high) / 2, rel=0.02)


@pytest.mark.parametrize("density", [4.0, 10.0, 12.0])
def test_its_spread_holds_the_usual_and_the_hard_density(density):
    assert abs(np.log(density / 7.0)) < 1.5 * PRIOR.ln_sd


def test_the_power_of_constant_heat_goes_with_about_two_thirds_of_the_mains_voltage():
    # Discontinuous mode: I_rms² ∝ I_pk³/V at a fixed power a pulse, so P ∝ I_pk² ∝ V^(2/3).
    assert output(mains=230.0) / output() == pytest.approx(2.3 ** (2 / 3), rel=0.05)


def test_the_bus_behind_a_corrector_does_not_follow_the_mains():
    assert output(corrector=1.0) == pytest.approx(output(corrector=1.0, mains=240.0))
    assert output(corrector=1.0) > output(mains=240.0)


@pytest.mark.parametrize("code", INPUTS)
def test_unknown_in_unknown_out(code):
    assert np.isnan(output(**{code: NAN}))


@pytest.mark.parametrize("frequency", [65e3, 1e5, 1e6, 1e7])
def test_the_switching_frequency_only_lowers_it_and_at_most_by_half(frequency):
    thick = output(diameter=0.5e-3, frequency=1e3)
    assert thick / 2 <= output(diameter=0.5e-3, frequency=frequency) < thick


def test_the_same_copper_in_strands_loses_less():
    solid, four = output(diameter=0.5e-3), output(diameter=0.25e-3, strands=4.0)
    assert solid < four < output(diameter=0.5e-3, frequency=1e3)


def test_strands_that_nobody_counted_make_no_line():
    seen = [*WIDE, ("primary_wire_diameter", 0.16e-3, 3e-6)]
    assert line(primary_current_density, seen, [watts(10.0)]) is None
    asked = questions(primary_current_density, seen, [watts(10.0)])
    assert any("strands" in text for text in asked)


def test_a_wire_far_too_thin_speaks_against_the_claim_as_loud_as_a_habit_may():
    # 0.1 mm: about 3.4 W.
    assert -16 < moved(0.10, 30.0) < -8


def test_a_wire_of_the_usual_size_speaks_mildly_for_it():
    assert 0 < moved(0.18, 9.0) < 10


@pytest.mark.parametrize("name", HONEST)
def test_honest_chargers_are_not_doubted(name):
    observations, claims = HONEST[name]
    done = judge(observations, claims)
    assert all(weight(done, ID, claim) > -3 for claim in range(len(claims)))


def test_one_gives_the_bits_of_many():
    wire = np.random.default_rng(1).uniform(1e-4, 5e-4, 501)
    rest = tuple(INPUTS.values())[1:]
    many = primary_current_density(wire, *(np.full(501, each) for each in rest))
    for i in (0, 250, 500):
        one = primary_current_density(wire[[i]], *(np.array([each]) for each in rest))
        assert one.tobytes() == many[[i]].tobytes()
