"""Clearances of the withdrawn standard."""
import numpy as np
import pytest

from teardowns.engine.requirements.legacy_clearance import ADDED, LEGACY, legacy_clearance

NAN = float("nan")


# Test reports on two chargers, IEC 60950-1, p. 42 to 47: 4.0 mm at 420 V peak, 4.2 mm at 428 V,
# 4.4 mm at 530 V. Basic by hand from the tables: 2.0 mm, 0.1 more up to 493 V.
@pytest.mark.parametrize("peak, reinforced, expected", [
    (420.0, True, 4.0), (428.0, True, 4.2), (530.0, True, 4.4), (300.0, True, 4.0),
    (420.0, False, 2.0), (428.0, False, 2.1), (860.0, True, 5.2)])
def test_the_addition_goes_by_steps(peak, reinforced, expected):
    assert legacy_clearance(240.0, peak, reinforced) == pytest.approx(expected * 1e-3, rel=1e-12)


@pytest.mark.parametrize("voltage, peak", [
    (120.0, 420.0), (301.0, 420.0), (240.0, 861.0), (NAN, 420.0), (240.0, NAN)])
def test_outside_its_tables_nothing_is_known(voltage, peak):
    assert np.isnan(legacy_clearance(voltage, peak, True))


def test_line_to_neutral_ahead_of_the_fuse_is_functional():
    # The same two reports: 1.5 mm.
    assert LEGACY.rows[2][1] == 1.5


def test_a_reinforced_addition_is_twice_the_basic_one():
    np.testing.assert_allclose(ADDED.column(2), 2.0 * ADDED.column(1), atol=1e-12)
