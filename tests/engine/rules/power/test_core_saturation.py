"""Worked by two routes in the physics' tests: an EF 16 core, 20.1 mm², with 140 nH carries 6.75 W
at 0.30 T, 65 kHz and 0.8 from bus to output.
"""
import numpy as np
import pytest

from teardowns.engine.physics.cores import FAMILIES
from teardowns.engine.rules.power.core_saturation import another_converters, core_saturation
from tests.engine.make import NAN, WIDE, judge, watts, weight
from tests.engine.rules.ask import ends, line, questions, value

ID = "power/core_saturation"
INPUTS = {"core_effective_area": 20.1e-6, "inductance_factor": 140e-9,
          "saturation_flux_density": 0.30, "switching_frequency": 65e3, "efficiency": 0.778,
          "power_factor_corrector": 0.0}
BENCH = (("saturation_flux_density", 0.30, 0.0), ("switching_frequency", 65e3, 0.0),
         ("efficiency", 0.778, 0.0))
EF16 = (("core_effective_area", 20.1e-6, 0.0), ("primary_inductance", 1.4e-3, 0.0),
        ("primary_turns", 100.0, 0.0))
# An honest 20 W design on an EE16, worked by hand: 23 W from the bus at 65 kHz in 700 µH take a
# peak of √(2·23/(700e-6·65e3)) = 1.005 A; 115 turns on 19.2 mm² keep it at 0.32 T.
HONEST_20 = (*WIDE, ("core_family", float(FAMILIES.index("E")), 0.0), ("core_width", 16e-3, 1e-4),
             ("core_height", 14.3e-3, 1e-4), ("core_depth", 4.8e-3, 5e-5),
             ("primary_inductance", 700e-6, 14e-6), ("primary_turns", 115.0, 0.0))
# An honest 65 W design on a PQ 26/20: 340 µH, 34 turns; 71 W from the bus at 65 kHz take 2.54 A in
# discontinuous conduction, 0.21 T.
HONEST_65 = (*WIDE, ("core_effective_area", 120e-6, 3.6e-6), ("primary_inductance", 340e-6, 7e-6),
             ("primary_turns", 34.0, 0.0))
# A quasi-resonant 65 W design on an RM 8 at 130 kHz: 170 µH, 22 turns, 2.53 A, 0.31 T.
HONEST_QR = (*WIDE, ("core_effective_area", 63e-6, 1.9e-6), ("primary_inductance", 170e-6, 4e-6),
             ("primary_turns", 22.0, 0.0))
KNOWN_65_KHZ = ("switching_frequency", 65e3, 1e3)


def output(**changed):
    return value(core_saturation, *(INPUTS | changed).values())


def test_an_ef16_carries_6_75_watts():
    assert output() == pytest.approx(6.75, rel=1e-3)


def test_it_goes_with_the_squares_of_flux_and_area():
    assert output(saturation_flux_density=0.6) == pytest.approx(4 * output())
    assert output(core_effective_area=40.2e-6) == pytest.approx(4 * output())
    assert output(inductance_factor=280e-9) == pytest.approx(output() / 2)


@pytest.mark.parametrize("code", INPUTS)
def test_unknown_in_unknown_out(code):
    assert np.isnan(output(**{code: NAN}))


def test_the_observations_give_the_same_at_both_ends():
    found = ends(core_saturation, [*WIDE, *EF16, *BENCH], [watts(6.0)])
    assert found == pytest.approx([6.75, 6.75], rel=1e-3)


def test_a_gap_does_as_well_as_inductance_and_turns():
    gapped = [*WIDE, EF16[0], ("air_gap", 0.17e-3, 0.01e-3)]
    assert line(core_saturation, gapped, [watts(6.0)])["used"]


@pytest.mark.parametrize("seen", [(), EF16[:1], EF16[:2], EF16[1:], (EF16[0], EF16[2])])
def test_without_an_area_and_an_inductance_factor_there_is_no_line(seen):
    assert line(core_saturation, [*WIDE, *seen, *BENCH], [watts(20.0)]) is None


def test_what_is_missing_is_asked_for():
    asked = " ".join(questions(core_saturation, WIDE, [watts(20.0)]))
    assert "Which core" in asked and "Primary inductance" in asked


def test_a_corrector_silences_the_line():
    corrected = [*WIDE, *EF16, ("power_factor_corrector", 1.0, 0.0)]
    found = line(core_saturation, corrected, [watts(45.0)])
    assert not found["used"] and "corrector" in found["why_not"]


def test_above_65_watts_it_waits_for_the_corrector_to_be_looked_for():
    assert line(core_saturation, [*WIDE, *EF16], [watts(100.0)]) is None


# A half-bridge or a forward converter of 60 W: 6 mH on 40 turns of 100 mm², 3750 nH. It stores
# nothing of what it passes on; taken for a flyback's core it would carry 8 W at 40 kHz.
BRIDGE = (*WIDE, ("core_effective_area", 100e-6, 3e-6), ("primary_inductance", 6e-3, 1e-4),
          ("primary_turns", 40.0, 0.0), ("switching_frequency", 40e3, 1e3))


def test_a_core_that_stores_nothing_sets_no_limit():
    found = line(core_saturation, BRIDGE, [watts(60.0)])
    assert not found["used"] and "another converter's" in found["why_not"]
    assert judge(BRIDGE, [watts(60.0)]).judged.plausibility[0] == pytest.approx(0.5)


def test_half_of_the_factor_without_a_gap_is_the_most_of_a_flyback():
    # 100 mm²: 4π·10⁻⁷ · 1300 · 10 mm/8 = 2042 nH; half of it is 1021 nH.
    wide = {"core_effective_area": 100e-6}
    assert np.isfinite(output(**wide, inductance_factor=1020e-9))
    assert np.isnan(output(**wide, inductance_factor=1022e-9))


@pytest.mark.parametrize("unit, claim", [
    (HONEST_20, 20.0), ((*HONEST_20, KNOWN_65_KHZ), 20.0), (HONEST_65, 65.0),
    ((*HONEST_65, KNOWN_65_KHZ), 65.0), (HONEST_QR, 65.0),
    ((*HONEST_QR, ("switching_frequency", 130e3, 3e3)), 65.0)])
def test_honest_designs_are_not_refuted(unit, claim):
    assert weight(judge(unit, [watts(claim)]), ID) > -1


def test_a_fast_design_is_not_judged_by_a_slow_frequency():
    # 42 mm² at 250 kHz, which nobody measured: 71 W from the bus in 170 µH take 1.83 A, 0.34 T.
    small = [*WIDE, ("core_effective_area", 42e-6, 1.3e-6), *HONEST_QR[4:]]
    assert judge(small, [watts(65.0)]).judged.plausibility[0] > 0.1


def test_a_claim_of_twice_the_bound_is_refuted_once_the_frequency_is_known():
    # 0.385 T of 19.2 mm² at 52.9 nH and 65 kHz: (7.392e-6)²·65e3/1.058e-7 = 33.6 W from the bus.
    found = judge([*HONEST_20, KNOWN_65_KHZ], [watts(65.0)])
    assert weight(found, ID) < -20


def test_one_gives_the_bits_of_many():
    many = [np.random.default_rng(1).uniform(0.5, 2, 301) * each for each in INPUTS.values()]
    one = core_saturation(*(column[[150]] for column in many))
    assert one.tobytes() == core_saturation(*many)[[150]].tobytes()


def test_a_core_between_a_flybacks_and_anothers_speaks_less_and_less():
    # 100 mm²: 2042 nH without a gap. Up to 0.3 of it no doubt, at 0.4 one in two, at 0.5 all.
    area, factors = np.full(4, 100e-6), 2042e-9 * np.array([0.1, 0.3, 0.4, 0.5])
    doubt, _ = another_converters(area, factors)
    assert doubt == pytest.approx([0.0, 0.0, 0.5, 1.0], abs=0.002)
