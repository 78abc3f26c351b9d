"""Worked in the physics' tests: an EI 12.5 core with the hard values, half of its window and 0.30 T
carries 8.44 W at 100 kHz and D = 0.45, beside 8.8 W in the catalogue of TDK (forward mode).
"""
import numpy as np
import pytest

from teardowns.engine.physics.cores import FAMILIES, find_core
from teardowns.engine.rules.power.core_window import core_window
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, value

ID = "power/core_window"
# D = 0.45 at a peak of 141.42 V: V_OR = 0.45/0.55 · 141.42 = 115.71 V.
INPUTS = {"core_effective_area": 14.4e-6, "core_window_area": 17.3e-6,
          "saturation_flux_density": 0.30, "switching_frequency": 100e3,
          "reflected_voltage": 115.71, "efficiency": 0.9725, "mains_voltage": 100.0,
          "power_factor_corrector": 0.0}


def output(**changed):
    return value(core_window, *(INPUTS | changed).values())


def core(name, *more):
    """A unit whose core was measured with a calliper."""
    found = find_core(name)
    return [*WIDE, ("core_family", float(FAMILIES.index(found.family)), 0.0),
            ("core_width", found.width, 1e-4), ("core_height", found.height, 1e-4),
            ("core_depth", found.depth, 1e-4), *more]


def test_an_ei12_5_with_0_6_of_its_window():
    # 8.44 W · 0.6/0.5 = 10.13 W.
    assert output() == pytest.approx(10.13, rel=1e-3)


def test_it_goes_with_area_window_and_frequency():
    for code in ("core_effective_area", "core_window_area", "switching_frequency"):
        assert output(**{code: 2 * INPUTS[code]}) == pytest.approx(2 * output())


def test_at_high_mains_the_switch_conducts_shorter_and_the_copper_carries_more():
    # D = 115.71/(115.71 + 339.41) = 0.2542 against 0.45: √(0.45/0.2542) = 1.330.
    assert output(mains_voltage=240.0) == pytest.approx(1.330 * output(), rel=1e-3)


@pytest.mark.parametrize("code", INPUTS)
def test_unknown_in_unknown_out(code):
    assert np.isnan(output(**{code: NAN}))


def test_a_corrector_leaves_no_bound():
    assert np.isnan(output(power_factor_corrector=1.0))


def test_a_calliper_is_enough():
    low, high = ends(core_window, core("EE16"), [watts(10.0)])
    assert 10 < low < high


@pytest.mark.parametrize("seen", [
    [*WIDE], [*WIDE, ("core_effective_area", 20e-6, 1e-6)], [*WIDE, ("core_width", 16e-3, 1e-4)]])
def test_without_a_core_there_is_no_line(seen):
    assert line(core_window, seen, [watts(10.0)]) is None


# What these sizes carry in honest chargers (common practice, no source).
@pytest.mark.parametrize("name, claim, kilohertz", [
    ("EE10", 5.0, 65), ("EE13", 10.0, 65), ("EE16", 20.0, 65), ("EE19", 30.0, 65),
    ("EFD20", 45.0, 100), ("PQ20/20", 65.0, 100), ("PQ26/20", 65.0, 65), ("RM8", 65.0, 130)])
def test_honest_designs_are_not_refuted(name, claim, kilohertz):
    for more in ((), (("switching_frequency", kilohertz * 1e3, kilohertz * 30.0),)):
        assert weight(judge(core(name, *more), [watts(claim)]), ID) > -5


def test_a_core_for_5_watts_does_not_carry_65():
    slow = ("switching_frequency", 65e3, 2e3)
    assert weight(judge(core("EE10", slow), [watts(65.0)]), ID) < -20


def test_a_large_core_says_little_for_a_small_claim():
    assert 0 < weight(judge(core("PQ32/30"), [watts(20.0)]), ID) < 10


def test_one_gives_the_bits_of_many():
    many = [np.random.default_rng(1).uniform(0.5, 2, 301) * each for each in INPUTS.values()]
    one = core_window(*(column[[150]] for column in many))
    assert one.tobytes() == core_window(*many)[[150]].tobytes()
