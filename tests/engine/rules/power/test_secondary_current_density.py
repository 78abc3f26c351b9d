"""AN-22 (5/98), page 8: 9 A/mm² is 3.05 A rms in 0.66 mm and 1.83 A in 0.51 mm."""
import numpy as np
import pytest

from teardowns.engine.rules.power.secondary_current_density import (
    PRIOR,
    secondary_current_density,
)
from tests.engine.make import NAN, WIDE, judge, weight
from tests.engine.rules.ask import line, questions, value
from tests.engine.rules.designs import HONEST

ID = "power/secondary_current_density"
INPUTS = {"diameter": 0.66e-3, "strands": 1.0, "volts": 5.0, "frequency": 1e3, "converter": NAN}


def output(**changed):
    return value(secondary_current_density, *(INPUTS | changed).values())


def unit(millimetres, strands, *more):
    return [*WIDE, ("secondary_wire_diameter", millimetres * 1e-3, 1e-5),
            ("secondary_strands", strands, 0.0), *more]


def moved(millimetres, strands, claim):
    return weight(judge(unit(millimetres, strands), [claim]), ID)


# The published outputs of 2.0 A and 1.2 A from 3.05 A and 1.83 A rms at 9 A/mm²; here 7 A/mm² and
# r = 1.6 in place of 1.525: 7/9 · 1.525/1.6 = 0.741 of them without skin effect, at 1 kHz.
@pytest.mark.parametrize("millimetres, amperes", [(0.66, 2.0), (0.51, 1.2)])
def test_the_wires_of_the_published_example(millimetres, amperes):
    found = output(diameter=millimetres * 1e-3) / 5.0
    assert found == pytest.approx(0.741 * amperes, rel=0.015)
    at_speed = output(diameter=millimetres * 1e-3, frequency=1e5) / 5.0
    assert abs(np.log(at_speed / amperes)) < PRIOR.ln_sd


@pytest.mark.parametrize("density", [4.0, 10.0, 12.0])
def test_its_spread_holds_the_usual_and_the_hard_density(density):
    assert abs(np.log(density / 7.0)) < 1.5 * PRIOR.ln_sd


@pytest.mark.parametrize("code", ["diameter", "strands", "volts", "frequency"])
def test_unknown_in_unknown_out(code):
    assert np.isnan(output(**{code: NAN}))


def test_behind_a_converter_at_the_port_it_says_nothing():
    found = line(secondary_current_density, unit(0.66, 1.0, ("port_converter", 1.0, 0.0)),
                 [(5.0, 2.0, NAN)])
    assert not found["used"] and "converter" in found["why_not"]


@pytest.mark.parametrize("frequency", [65e3, 1e5, 1e7])
def test_the_switching_frequency_only_lowers_it_and_at_most_by_half(frequency):
    assert output() / 2 <= output(frequency=frequency) < output()


def test_the_same_copper_in_thin_strands_loses_less():
    solid, litz = (output(diameter=each, strands=count, frequency=1e5)
                   for each, count in ((0.8e-3, 1.0), (0.1e-3, 64.0)))
    assert solid < litz


def test_the_power_goes_with_the_voltage_and_the_strands():
    assert output(volts=20.0, strands=2.0) == pytest.approx(8 * output())


def test_strands_that_nobody_counted_make_no_line_and_a_question():
    seen = [*WIDE, ("secondary_wire_diameter", 0.5e-3, 1e-5)]
    assert line(secondary_current_density, seen, [(5.0, 2.0, NAN)]) is None
    asked = questions(secondary_current_density, seen, [(5.0, 2.0, NAN)])
    assert any("strands" in text for text in asked)


def test_a_wire_far_too_thin_speaks_against_the_claim_as_loud_as_a_habit_may():
    # 0.3 mm: 0.31 A of output at 7 A/mm².
    assert -16 < moved(0.30, 1.0, (5.0, 3.0, NAN)) < -8


@pytest.mark.parametrize("name", HONEST)
def test_honest_chargers_are_not_doubted(name):
    observations, claims = HONEST[name]
    done = judge(observations, claims)
    assert all(weight(done, ID, claim) > -3 for claim in range(len(claims)))


def test_one_gives_the_bits_of_many():
    wire = np.random.default_rng(1).uniform(1e-4, 1e-3, 501)
    rest = (2.0, 5.0, 65e3, NAN)
    many = secondary_current_density(wire, *(np.full(501, each) for each in rest))
    for i in (0, 250, 500):
        one = secondary_current_density(wire[[i]], *(np.array([each]) for each in rest))
        assert one.tobytes() == many[[i]].tobytes()
