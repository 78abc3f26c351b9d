"""What is taken of a flyback stage that nobody measured, and what follows from what was."""
import numpy as np
import pytest

from teardowns.engine.columns import DEFAULT, DERIVED, EVIDENCE
from teardowns.engine.defaults import fill_defaults
from teardowns.engine.evidence import pool_evidence
from teardowns.engine.physics.cores import FAMILIES
from tests.engine.make import claim_table, evidence_table, watts

E = float(FAMILIES.index("E"))
EE16 = (("core_family", E, 0.0), ("core_width", 16e-3, 0.1e-3), ("core_height", 14.3e-3, 0.1e-3),
        ("core_depth", 4.8e-3, 0.05e-3))


def filled(code, observations=(), claims=()):
    frame = fill_defaults(pool_evidence(evidence_table(list(observations))),
                          claim_table(list(claims)))
    column = frame[code]
    return float(column.value[0]), float(column.u[0]), int(column.how[0])


@pytest.mark.parametrize("code, low, high", [
    ("saturation_flux_density", 0.38, 0.42),       # PyOpenMagnetics 1.7.35, 100 °C
    ("current_sense_threshold", 0.5, 1.0),         # (0.5 + 0.75 + 1)/3 = 0.75; from memory
    ("maximum_duty", 0.45, 0.75),
    ("reflected_voltage", 60.0, 135.0),            # Power Integrations AN-19, p. 14
])
def test_the_usual_range_lies_within_two_and_a_half_uncertainties(code, low, high):
    value, u, how = filled(code)
    assert low < value < high and how == DEFAULT
    assert value - 2.5 * u < low and high < value + 2.5 * u


# Means of the triangles: (50 + 65 + 132)/3 and (60 + 100 + 300)/3 kHz.
@pytest.mark.parametrize("claims, kilohertz", [
    ([watts(5.0)], 82.3), ([watts(15.0)], 82.3), ([watts(20.0)], 153.3), ([], 153.3)])
def test_the_frequency_by_the_largest_claim(claims, kilohertz):
    value, u, how = filled("switching_frequency", claims=claims)
    assert value == pytest.approx(kilohertz * 1e3, rel=1e-3) and how == DEFAULT
    assert 0.2 * value < u < 0.4 * value


def test_a_measured_frequency_replaces_the_default():
    assert filled("switching_frequency", [("switching_frequency", 65e3, 1e3)])[0] == 65e3


@pytest.mark.parametrize("code", ["core_effective_area", "core_window_area", "inductance_factor"])
def test_nothing_comes_from_nothing(code):
    assert np.isnan(filled(code, claims=[watts(20.0)])[0])


def test_the_area_and_the_window_of_a_measured_core():
    # EE16: 19.2 mm² ± 3 %, with 0.6 % and 1.0 % of the calliper; window 41.6 mm².
    area, u, how = filled("core_effective_area", EE16)
    assert (area, how) == (pytest.approx(19.2e-6), DERIVED)
    assert u / area == pytest.approx((0.03**2 + 0.00625**2 + 0.0104**2) ** 0.5, rel=1e-2)
    assert filled("core_window_area", EE16)[0] == pytest.approx(41.6e-6)


def test_an_area_that_was_given_stays():
    given = (*EE16, ("core_effective_area", 20e-6, 1e-7))
    assert filled("core_effective_area", given) == (20e-6, 1e-7, EVIDENCE)


def test_the_inductance_factor_from_inductance_and_turns():
    # 1 mH over 100² = 100 nH; 2 % and twice 1 %: 2.83 %.
    value, u, how = filled("inductance_factor", [
        ("primary_inductance", 1e-3, 2e-5), ("primary_turns", 100.0, 1.0)])
    assert (value, u / value, how) == (pytest.approx(1e-7), pytest.approx(0.0283, rel=1e-2),
                                       DERIVED)


@pytest.mark.parametrize("missing", ["primary_inductance", "primary_turns"])
def test_inductance_or_turns_alone_give_no_factor(missing):
    seen = {"primary_inductance": 1e-3, "primary_turns": 100.0}
    one = [(code, value, 0.0) for code, value in seen.items() if code != missing]
    assert np.isnan(filled("inductance_factor", one)[0])


# EPCOS B66413, EFD 15/8/5: catalogue 100 nH ± 10 % with 0.17 mm, 160 nH ± 15 % with 0.08 mm.
@pytest.mark.parametrize("gap, catalogue, tolerance", [(0.17e-3, 100e-9, 0.10),
                                                       (0.08e-3, 160e-9, 0.15)])
def test_the_inductance_factor_from_a_gap_covers_the_catalogue(gap, catalogue, tolerance):
    value, u, how = filled("inductance_factor", [
        ("air_gap", gap, 0.0), ("core_effective_area", 15e-6, 0.45e-6)])
    # A tolerance is taken as the bounds of a uniform distribution.
    assert how == DERIVED
    assert abs(value - catalogue) < 2 * np.hypot(u, tolerance * catalogue / 3**0.5)
    assert 0.10 * value < u < 0.12 * value


def test_a_measured_inductance_is_worth_more_than_a_gap():
    both = [("air_gap", 0.2e-3, 1e-5), ("core_effective_area", 20e-6, 6e-7),
            ("primary_inductance", 1e-3, 2e-5), ("primary_turns", 100.0, 0.0)]
    assert filled("inductance_factor", both)[0] == pytest.approx(1e-7)


def test_a_gap_of_zero_gives_no_factor_without_uncertainty():
    value, u, _ = filled("inductance_factor", [
        ("air_gap", 0.0, 1e-5), ("core_effective_area", 15e-6, 0.45e-6)])
    assert np.isnan(value) or not np.isfinite(u)
