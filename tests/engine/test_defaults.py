"""What an unmeasured quantity is taken to be."""
import numpy as np
import pytest

from teardowns.engine.columns import DEFAULT, DERIVED, EVIDENCE
from teardowns.engine.default_value import triangular
from teardowns.engine.defaults import DEFAULTS, fill_defaults
from teardowns.engine.evidence import pool_evidence
from teardowns.engine.quantities import QUANTITIES
from tests.engine.make import NAN, WIDE, claim_table, evidence_table, watts

HIGH_ONLY = (("rated_voltage_low", 220.0, 0.0), ("rated_voltage_high", 240.0, 0.0))


def filled(code, observations=(), claims=()):
    frame = fill_defaults(pool_evidence(evidence_table(list(observations))),
                          claim_table(list(claims)))
    column = frame[code]
    return float(column.value[0]), float(column.u[0]), int(column.how[0])


def test_moments_of_a_triangular_distribution():
    # Of 0, 0, 1: mean 1/3, variance 1/18 (textbook).
    assert triangular(0, 0, 1) == pytest.approx((1 / 3, (1 / 18) ** 0.5))


# Mean of the triangle: (0.55 + 0.68 + 0.78)/3 = 0.670 and so on.
@pytest.mark.parametrize("claim, mean", [(2.5, 0.670), (5, 0.740), (12, 0.790), (20, 0.8567),
                                         (65, 0.8967)])
def test_efficiency_by_the_largest_claim(claim, mean):
    value, u, how = filled("efficiency", claims=[watts(1.0), watts(claim)])
    assert value == pytest.approx(mean, abs=1e-4)
    assert 0.01 < u < 0.06 and how == DEFAULT


def test_a_measured_efficiency_replaces_the_default():
    assert filled("efficiency", [("efficiency", 0.83, 0.01)], [watts(65)]) == (0.83, 0.01, EVIDENCE)


def test_an_efficiency_without_a_claim_is_wide():
    assert filled("efficiency")[:2] == (0.80, 0.06)


def test_capacitance_from_the_marking():
    # Mean of 0.80, 0.95, 1.15: 0.9667; variance (0.64 + 0.9025 + 1.3225 − 0.76 − 0.92 − 1.0925)/18
    # = 0.0925/18, its root 0.0717.
    value, u, how = filled("bulk_capacitance", [("bulk_capacitance_marked", 1e-5, 1.155e-6)])
    assert (value, u) == pytest.approx((9.667e-6, 0.717e-6), rel=1e-3)
    assert how == DERIVED


def test_a_marking_hard_to_read_is_worth_less():
    assert filled("bulk_capacitance", [("bulk_capacitance_marked", 1e-5, 4e-6)])[1] == 4e-6


def test_capacitance_without_a_marking_stays_unknown():
    assert np.isnan(filled("bulk_capacitance")[0])


@pytest.mark.parametrize("plate, floor, top", [(WIDE, 45, 90), (HIGH_ONLY, 80, 240)])
def test_the_lowest_bus_voltage_leaves_room_for_the_generous_floor(plate, floor, top):
    value, u, _ = filled("minimum_bus_voltage", plate)
    assert value - 2 * u < floor and top < value + 2.1 * u


@pytest.mark.parametrize("claim, expected", [(45, 0.0), (65, 0.0), (100, NAN)])
def test_a_corrector_is_taken_as_absent_only_where_none_is_needed(claim, expected):
    value = filled("power_factor_corrector", claims=[watts(claim)])[0]
    assert value == expected or np.isnan(value) and np.isnan(expected)


@pytest.mark.parametrize("plate, ends", [
    (WIDE, (100.0, 240.0, 50.0)),
    ([("rated_voltage_low", 120.0, 0.0), ("rated_frequency", 60.0, 0.0)], (120.0, 120.0, 60.0)),
    ([], (220.0, 240.0, 50.0)),
])
def test_the_mains_ends_are_those_of_the_plate_or_the_better_case(plate, ends):
    columns = [filled(code, plate) for code in ("mains_low", "mains_high", "mains_frequency")]
    assert tuple(value for value, _, _ in columns) == ends
    assert (columns[0][2] == DEFAULT) is (not plate)


def test_every_default_names_its_source_and_a_quantity():
    for code, default in DEFAULTS.items():
        assert code in QUANTITIES and default.source.endswith(".")
