"""Worked by hand: 0.4 A (0.5 V over 1.25 Ω) in 1400 µH at 65 kHz draw 7.28 W from the bus."""
import numpy as np
import pytest

from teardowns.engine.rules.power.core_saturation import core_saturation
from teardowns.engine.rules.power.current_sense import current_sense
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, questions, value

ID = "power/current_sense"
INPUTS = {"primary_inductance": 1400e-6, "current_sense_resistance": 1.25,
          "current_sense_threshold": 0.5, "switching_frequency": 65e3, "efficiency": 0.778,
          "power_factor_corrector": 0.0}
SENSE = (("current_sense_resistance", 1.25, 0.0), ("primary_inductance", 1400e-6, 0.0))
BENCH = (("current_sense_threshold", 0.5, 0.0), ("switching_frequency", 65e3, 0.0),
         ("efficiency", 0.778, 0.0))
# Honest: 20 W on an EE16 takes 1.005 A in 700 µH at 65 kHz; limited at 1.15 A by 0.65 Ω and 0.75 V.
HONEST_20 = (*WIDE, ("primary_inductance", 700e-6, 14e-6), ("current_sense_resistance", 0.65, 0.01))
# Honest: 65 W on a PQ 26/20 takes 2.54 A in 340 µH at 65 kHz; limited at 3 A by 0.25 Ω and 0.75 V.
HONEST_65 = (*WIDE, ("primary_inductance", 340e-6, 7e-6), ("current_sense_resistance", 0.25, 0.005))


def output(**changed):
    return value(current_sense, *(INPUTS | changed).values())


def test_0_4_amperes_in_1400_microhenry():
    # 7.28 W · 0.778/0.9725 = 5.824 W.
    assert output() == pytest.approx(5.824)


def test_it_is_the_saturation_bound_at_the_current_that_saturates():
    # 0.4 A in 1400 µH and 100 turns on 20.1 mm² reach 0.2786 T.
    at = value(core_saturation, 20.1e-6, 140e-9, 0.4 * 1400e-6 / (100 * 20.1e-6), 65e3, 0.778, 0.0)
    assert output() == pytest.approx(at)


def test_twice_the_resistance_leaves_a_quarter():
    assert output(current_sense_resistance=2.5) == pytest.approx(output() / 4)


@pytest.mark.parametrize("code", INPUTS)
def test_unknown_in_unknown_out(code):
    assert np.isnan(output(**{code: NAN}))


def test_the_observations_give_the_same_at_both_ends():
    found = ends(current_sense, [*WIDE, *SENSE, *BENCH], [watts(6.0)])
    assert found == pytest.approx([5.824, 5.824])


@pytest.mark.parametrize("missing", range(2))
def test_resistor_and_inductance_are_both_needed(missing):
    seen = [*WIDE, *BENCH, SENSE[1 - missing]]
    assert line(current_sense, seen, [watts(6.0)]) is None
    asked = questions(current_sense, seen, [watts(6.0)])
    assert missing == 0 or any("inductance" in text for text in asked)


def test_a_resistance_of_zero_is_no_line():
    assert ends(current_sense, [*WIDE, SENSE[1], ("current_sense_resistance", 0.0, 0.0)],
                [watts(6.0)]) == [None, None]


def test_a_corrector_silences_the_line():
    found = line(current_sense, [*WIDE, *SENSE, ("power_factor_corrector", 1.0, 0.0)],
                 [watts(45.0)])
    assert not found["used"] and "corrector" in found["why_not"]


@pytest.mark.parametrize("threshold", [None, 0.5, 0.75, 1.0])
@pytest.mark.parametrize("unit, claim, peak", [(HONEST_20, 20.0, 1.15), (HONEST_65, 65.0, 3.0)])
def test_honest_designs_are_not_refuted_whatever_their_threshold(unit, claim, peak, threshold):
    # The maker chooses the resistor by the chip's threshold; the threshold itself was not read.
    if threshold:
        unit = (*unit[:-1], ("current_sense_resistance", threshold / peak, 0.01 * peak))
    assert weight(judge(unit, [watts(claim)]), ID) > -3


def test_a_known_frequency_and_threshold_refute_three_times_the_bound():
    known = [*HONEST_20, ("switching_frequency", 65e3, 1e3),
             ("current_sense_threshold", 0.75, 0.02)]
    assert weight(judge(known, [watts(65.0)]), ID) < -20


def test_one_gives_the_bits_of_many():
    many = [np.random.default_rng(1).uniform(0.5, 2, 301) * each for each in INPUTS.values()]
    one = current_sense(*(column[[150]] for column in many))
    assert one.tobytes() == current_sense(*many)[[150]].tobytes()
