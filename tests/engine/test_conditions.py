"""A test decides within its own conditions only."""
import numpy as np
import pytest

from teardowns.engine.conditions import (
    PEAK,
    Observations,
    Sought,
    at_ports,
    effective_voltage,
    held,
    lost,
    overcurrent,
    refused,
)
from teardowns.engine.evidence import pool_evidence
from tests.engine.make import NAN, evidence_table


def asked(mains=100.0, is_high=False, voltage=5.0, highest=5.0, port=-1, several=False):
    """One case of one unit."""
    return Sought(np.array([0]), np.array([float(voltage)]), np.array([float(highest)]),
                 np.array([port]), np.array([several]), np.array([float(mains)]), is_high)


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
    assert is_known(held(table, asked(end, is_high))) is counts


# Held at U it shows its current: at a lower voltage the power goes with the voltage.
@pytest.mark.parametrize("tested, claimed, highest, expected", [
    (20, 20, 20, 40.0), (20, 5, 20, 10.0), (20, 12, 20, 24.0), (5, 20, 20, 40.0),
    (5.1, 5, 5, 40.0), (NAN, 5, 20, 10.0), (NAN, 20, 20, 40.0), (NAN, 5, NAN, 40.0),
])
def test_a_load_that_was_held_counts_with_its_current_at_lower_voltages(
        tested, claimed, highest, expected):
    table = seen(("sustained_power", 40.0, 0.4, 100.0, tested))
    found = held(table, asked(voltage=claimed, highest=highest))
    assert value(found) == pytest.approx(expected)


# Lost at V it caps ends with V_end ≤ 1.15·V: 100 · 1.15 = 115.
@pytest.mark.parametrize("tested, end, is_high, counts", [
    (230, 100, False, True), (100, 114.9, False, True), (100, 120, False, False),
    (100, 240, True, False), (NAN, 100, False, True), (NAN, 240, True, False),
])
def test_a_load_that_was_lost_caps_its_mains_voltage_and_below(tested, end, is_high, counts):
    table = seen(("failed_power", 12.0, 0.1, tested, 20.0))
    found = lost(table, asked(end, is_high, voltage=20, highest=20))
    assert is_known(found) is counts


# Lost at output voltage U it caps claims up to 1.1·U; U not stated: units of 5 V alone.
@pytest.mark.parametrize("tested, claimed, highest, counts", [
    (5, 20, 20, False), (5, 5, 20, True), (5, 5.5, 5.5, True), (9, 5, 20, True),
    (9, 12, 20, False), (NAN, 5, 5, True), (NAN, 5, 20, False), (NAN, 20, 20, False),
])
def test_a_load_that_was_lost_at_5_volts_says_nothing_about_20(tested, claimed, highest, counts):
    table = seen(("failed_power", 12.0, 0.1, 100.0, tested))
    assert is_known(lost(table, asked(voltage=claimed, highest=highest))) is counts


def test_the_highest_load_held_under_the_conditions_counts():
    table = seen(("sustained_power", 12.0, 0.1, 100.0), ("sustained_power", 11.0, 0.2, 100.0),
                 ("sustained_power", 20.0, 0.3, 230.0))
    assert value(held(table, asked())) == 12.0
    assert value(held(table, asked(240, True))) == 20.0


def test_the_lowest_load_lost_counts():
    table = seen(("failed_power", 14.0, 0.1, 100.0, 5.0), ("failed_power", 13.0, 0.1, 100.0, 5.0))
    assert value(lost(table, asked())) == 13.0


def test_a_load_held_for_seconds_is_looked_up_like_one_held_for_minutes():
    table = seen(("peak_power", 14.0, 0.1, 100.0), ("sustained_power", 9.0, 0.1, 100.0))
    assert value(held(table, asked(), PEAK)) == 14.0


# 3 A at 9 V are 27 W, and 27 W are 5.4 A at 5 V.
@pytest.mark.parametrize("tested, claimed, highest, expected", [
    (9, 9, 9, 3.0), (9, 5, 9, 5.4), (9, 20, 20, NAN), (NAN, 5, 5, 3.0)])
def test_an_over_current_point_counts_with_its_power(tested, claimed, highest, expected):
    table = seen(("overcurrent_point", 3.0, 0.01, 100.0, tested))
    found = overcurrent(table, asked(voltage=claimed, highest=highest))
    assert value(found) == pytest.approx(expected, nan_ok=True)


# Port −1: not named by the test, a total for the claim.
@pytest.mark.parametrize("tested, claimed, is_held, is_lost", [
    (0, 0, True, True), (0, 1, False, False), (0, -1, True, False), (-1, -1, True, True),
    (-1, 0, False, False)])
def test_of_several_ports_a_load_counts_for_the_claims_of_its_own(
        tested, claimed, is_held, is_lost):
    table = seen(("sustained_power", 12.0, 0.1, 100.0, 5.0, tested),
                 ("failed_power", 13.0, 0.1, 100.0, 5.0, tested))
    case = asked(port=claimed, several=True)
    assert is_known(held(table, case)) is is_held and is_known(lost(table, case)) is is_lost


def test_of_one_port_a_load_counts_whatever_it_names():
    table = seen(("failed_power", 13.0, 0.1, 100.0, 5.0, 0))
    assert is_known(lost(table, asked()))


def at_port(rows, port, code):
    """The column of one claim at a port of a unit that has several."""
    table = evidence_table(list(rows))
    frame = at_ports(pool_evidence(table), Observations.of(table), np.array([0]),
                     np.array([port]), np.array([True]))
    return value(frame[code])


PORTS = (("offered_voltage", 20.0, 0.1, NAN, NAN, 0), ("offered_voltage", 5.1, 0.05, NAN, NAN, 1),
         ("protocol_controller", 1.0, 0.0, NAN, NAN, 0), ("bus_switch", 1.0, 0.0))


@pytest.mark.parametrize("port, code, expected", [
    (0, "offered_voltage", 20.0), (1, "offered_voltage", 5.1), (-1, "offered_voltage", 20.0),
    (0, "protocol_controller", 1.0), (1, "protocol_controller", NAN),
    (1, "bus_switch", 1.0)])           # named no port: counts for each
def test_what_was_seen_at_one_port_is_not_said_of_the_other(port, code, expected):
    assert at_port(PORTS, port, code) == pytest.approx(expected, nan_ok=True)


def test_a_load_held_at_a_port_shows_its_voltage_there():
    rows = [("sustained_power", 12.0, 0.1, 100.0, 12.0, 1)]
    assert at_port(rows, 1, "offered_voltage") == 12.0
    assert np.isnan(at_port(rows, 0, "offered_voltage"))


@pytest.mark.parametrize("claimed, counts", [(12, True), (13, True), (9, False), (20, False)])
def test_a_refused_voltage_concerns_claims_within_ten_percent(claimed, counts):
    table = seen(("refused_voltage", 12.0, 0.05))
    found = refused(table, np.array([0]), np.array([float(claimed)]), np.array([-1]),
                    np.array([False]))
    assert is_known(found) is counts


@pytest.mark.parametrize("tested, counts", [(1, True), (-1, True), (0, False)])
def test_a_voltage_refused_at_one_port_says_nothing_about_another(tested, counts):
    table = seen(("refused_voltage", 12.0, 0.05, NAN, NAN, tested))
    found = refused(table, np.array([0]), np.array([12.0]), np.array([1]), np.array([True]))
    assert is_known(found) is counts


def test_each_case_meets_the_observations_of_its_own_unit():
    table = Observations.of(evidence_table(
        [("sustained_power", 5.0, 0.1, 100.0)], [], [("sustained_power", 7.0, 0.1, 100.0)]))
    found = held(table, Sought(np.array([0, 0, 1, 2]), np.full(4, 5.0), np.full(4, 5.0),
                              np.full(4, -1), np.zeros(4, bool), np.full(4, 100.0), False))
    np.testing.assert_array_equal(found.value, [5.0, 5.0, NAN, 7.0])


def test_a_claim_without_a_voltage_stands_at_the_highest_of_its_unit():
    found = effective_voltage(np.array([9.0, NAN, NAN]), np.array([20.0, 20.0, NAN]))
    assert found.tolist() == [9.0, 20.0, 5.0]
