import numpy as np
import pytest

from teardowns.engine.evidence import assumed_uncertainty, pool_evidence
from tests.engine.make import NAN, evidence_table


def pooled(code, *rows):
    column = pool_evidence(evidence_table([(code, *row) for row in rows]))[code]
    return float(column.value[0]), float(column.u[0])


def test_one_observation_stays_what_it_is_to_the_last_digit():
    assert pooled("bulk_capacitance", (1.5e-5, 3e-7)) == (1.5e-5, 3e-7)


def test_observations_are_weighted_by_their_inverse_variance():
    # Weights 1 and 1/4: (10·1 + 10.5·0.25) / 1.25 = 10.1; u = 1/√1.25 = 0.894, misfit below one.
    assert pooled("mass_total", (10.0, 1.0), (10.5, 2.0)) == pytest.approx((10.1, 0.8944), abs=1e-4)


def test_disagreement_widens_the_uncertainty():
    # Mean 11; misfit 1 + 1 = 2 over one degree of freedom: Birge ratio √2; u = √2 · 1/√2 = 1.
    assert pooled("mass_total", (10.0, 1.0), (12.0, 1.0)) == pytest.approx((11.0, 1.0))


@pytest.mark.parametrize("code, expected", [("offered_voltage", 12.0), ("failed_power", 9.0),
                                            ("output_capacitor_rating", 9.0)])
def test_highest_and_lowest_are_kept_as_the_quantity_asks(code, expected):
    assert pooled(code, (9.0, 0.1), (12.0, 0.2))[0] == expected


@pytest.mark.parametrize("values, expected", [((1, 1), 1.0), ((0, 0), 0.0), ((1, 0), NAN)])
def test_a_flag_on_which_observers_differ_is_unknown(values, expected):
    value, _ = pooled("isolated_feedback", *((value, 0.0) for value in values))
    assert value == expected or np.isnan(value) and np.isnan(expected)


def test_a_load_held_at_a_voltage_shows_that_voltage():
    table = evidence_table([("sustained_power", 18.0, 0.2, 230.0, 9.0)])
    offered = pool_evidence(table)["offered_voltage"]
    assert (offered.value[0], offered.u[0]) == (9.0, pytest.approx(0.09))
    assert table.behind(0, "offered_voltage") == [0]


def test_what_nobody_observed_is_unknown():
    frame = pool_evidence(evidence_table([], [("mass_total", 0.05, 0.001)]))
    assert np.isnan(frame["mass_total"].value[0]) and np.isnan(frame["clearance"].value).all()


def test_evidence_of_another_unit_is_not_behind_a_number():
    table = evidence_table([("mass_total", 0.05, 0.001)], [("mass_total", 0.06, 0.001)])
    assert table.behind(1, "mass_total") == [1]


def test_a_reading_without_uncertainty_gets_that_of_its_kind():
    assert assumed_uncertainty("mass_total", "estimated", 0.05) == pytest.approx(0.01)
    assert assumed_uncertainty("isolated_feedback", "measured", 1.0) == 0.0
    # ±20 % with all values equally likely: 0.2/√3 = 0.1155
    assert assumed_uncertainty("bulk_capacitance_marked", "decoded", 1e-5) == pytest.approx(
        1.155e-6, rel=1e-3)


def test_rows_come_by_code_as_they_come_one_code_at_a_time():
    table = evidence_table([("mass_total", 10.0, 1.0), ("sustained_power", 18.0, 0.2, 230.0, 9.0),
                            ("mass_total", 11.0, 1.0)])
    parts = dict(table.by_code())
    assert parts.keys() == {"mass_total", "sustained_power"}
    assert all(part.value.tolist() == table.of(code).value.tolist()
               for code, part in parts.items())
    assert not list(table.take(slice(0)).by_code())
