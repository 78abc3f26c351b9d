import numpy as np

from teardowns.engine.claims import largest_by_unit
from tests.engine.make import NAN, claim_table


def test_a_power_that_is_not_printed_is_voltage_times_current():
    table = claim_table([(9.0, 2.0, NAN), (9.0, 2.0, 20.0), (9.0, NAN, NAN)])
    np.testing.assert_array_equal(table.claimed_power, [18.0, 20.0, NAN])


def test_a_power_of_zero_is_no_claim():
    assert np.isnan(claim_table([(NAN, NAN, 0.0)]).claimed_power).all()


def test_the_largest_of_each_unit_or_unknown():
    found = largest_by_unit(np.array([0, 0, 2]), np.array([1.0, 5.0, NAN]), 3)
    np.testing.assert_array_equal(found, [5.0, NAN, NAN])
