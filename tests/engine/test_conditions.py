"""A test decides within its own conditions only."""
import numpy as np
import pytest

from teardowns.engine.conditions import Observations, effective_voltage, held, lost, refused
from tests.engine.make import NAN, evidence_table

ONE = np.array([0])
FIVE = (np.array([5.0]), np.array([5.0]))       # the claims' voltage, the unit's highest


def seen(*rows):
    return Observations.of(evidence_table(list(rows)))


def value(column):
    return float(column.value[0])


def is_known(column):
    return bool(~np.isnan(column.value[0]))


# A load held at V counts where V_end ≥ 0.85·V: 115 · 0.85 = 97.75, 230 · 0.85 = 195.5.
@pytest.mark.parametrize("tested, end, is_high, counts", [
    (100, 100, False, True), (115, 100, False, True), (120, 100, False, False),
    (230, 100, False, False), (230, 220, True, True), (100, 240, True, True),
    (NAN, 100, False, False), (NAN, 240, True, True),
])
def test_a_load_that_was_held_counts_at_its_mains_voltage_and_above(tested, end, is_high, counts):
    table = seen(("sustained_power", 12.0, 0.1, tested))
    assert is_known(held(table, ONE, np.array([float(end)]), is_high, *FIVE)) is counts


# Held at U it shows its current: at a lower voltage the power goes with the voltage.
@pytest.mark.parametrize("tested, claimed, highest, expected", [
    (20, 20, 20, 40.0), (20, 5, 20, 10.0), (20, 12, 20, 24.0), (5, 20, 20, 40.0),
    (5.1, 5, 5, 40.0), (NAN, 5, 20, 10.0), (NAN, 20, 20, 40.0), (NAN, 5, NAN, 40.0),
])
def test_a_load_that_was_held_counts_with_its_current_at_lower_voltages(
        tested, claimed, highest, expected):
    table = seen(("sustained_power", 40.0, 0.4, 100.0, tested))
    found = held(table, ONE, np.array([100.0]), False, np.array([float(claimed)]),
                 np.array([float(highest)]))
    assert value(found) == pytest.approx(expected)


# Lost at V it caps ends with V_end ≤ 1.15·V: 100 · 1.15 = 115.
@pytest.mark.parametrize("tested, end, is_high, counts", [
    (230, 100, False, True), (100, 114.9, False, True), (100, 120, False, False),
    (100, 240, True, False), (NAN, 100, False, True), (NAN, 240, True, False),
])
def test_a_load_that_was_lost_caps_its_mains_voltage_and_below(tested, end, is_high, counts):
    table = seen(("failed_power", 12.0, 0.1, tested, 20.0))
    found = lost(table, ONE, np.array([float(end)]), is_high, np.array([20.0]), np.array([True]))
    assert is_known(found) is counts


# Lost at output voltage U it caps claims up to 1.1·U; U not stated: units of 5 V alone.
@pytest.mark.parametrize("tested, claimed, multi, counts", [
    (5, 20, True, False), (5, 5, True, True), (5, 5.5, False, True), (9, 5, True, True),
    (9, 12, True, False), (NAN, 5, False, True), (NAN, 5, True, False), (NAN, 20, True, False),
])
def test_a_load_that_was_lost_at_5_volts_says_nothing_about_20(tested, claimed, multi, counts):
    table = seen(("failed_power", 12.0, 0.1, 100.0, tested))
    found = lost(table, ONE, np.array([100.0]), False, np.array([float(claimed)]),
                 np.array([multi]))
    assert is_known(found) is counts


def test_the_highest_load_held_under_the_conditions_counts():
    table = seen(("sustained_power", 12.0, 0.1, 100.0), ("sustained_power", 11.0, 0.2, 100.0),
                 ("sustained_power", 20.0, 0.3, 230.0))
    assert value(held(table, ONE, np.array([100.0]), False, *FIVE)) == 12.0
    assert value(held(table, ONE, np.array([240.0]), True, *FIVE)) == 20.0


def test_the_lowest_load_lost_counts():
    table = seen(("failed_power", 14.0, 0.1, 100.0, 5.0), ("failed_power", 13.0, 0.1, 100.0, 5.0))
    found = lost(table, ONE, np.array([100.0]), False, np.array([5.0]), np.array([False]))
    assert value(found) == 13.0


@pytest.mark.parametrize("claimed, counts", [(12, True), (13, True), (9, False), (20, False)])
def test_a_refused_voltage_concerns_claims_within_ten_percent(claimed, counts):
    table = seen(("refused_voltage", 12.0, 0.05))
    assert is_known(refused(table, ONE, np.array([float(claimed)]))) is counts


def test_each_case_meets_the_observations_of_its_own_unit():
    table = Observations.of(evidence_table(
        [("sustained_power", 5.0, 0.1, 100.0)], [], [("sustained_power", 7.0, 0.1, 100.0)]))
    found = held(table, np.array([0, 0, 1, 2]), np.full(4, 100.0), False, np.full(4, 5.0),
                 np.full(4, 5.0))
    np.testing.assert_array_equal(found.value, [5.0, 5.0, NAN, 7.0])


def test_a_claim_without_a_voltage_stands_at_the_highest_of_its_unit():
    found = effective_voltage(np.array([9.0, NAN, NAN]), np.array([20.0, 20.0, NAN]))
    assert found.tolist() == [9.0, 20.0, 5.0]
