"""Worked example: 78.4 g in all, 51.2 g of parts: a gap of 27.2 g. u of a tared reading with a
scale of resolution q: √2·q/√12 (rectangular distribution, JCGM 100:2008, F.2.2.1).
"""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.unaccounted_mass import U, unaccounted_mass
from tests.engine.make import NAN
from tests.engine.rules.ask import outcomes


def test_thirteen_tared_readings_to_a_gram_leave_one_and_a_half_grams():
    # 1 g · √2/√12 = 0.408 g; √13 of it: 1.472 g.
    assert pytest.approx(1.472e-3, abs=1e-6) == U


def test_a_third_of_the_unit_is_not_accounted_for():
    found = unaccounted_mass(0.0784, 0.0512, 0.0)
    assert found.outcome == CANNOT_TELL
    assert found.numbers["gap"] == pytest.approx(0.0272)
    assert "27.2\u202fg of the unit examined are not accounted for" in found.sentence
    assert "ballast" not in found.sentence


@pytest.mark.parametrize("total, parts, outcome", [
    (0.0784, 0.0784, CONSISTENT),
    (0.0784, 0.0741, CONSISTENT), (0.0784, 0.0739, CANNOT_TELL),     # 3 u: 4.42 g
    (0.200, 0.191, CONSISTENT), (0.200, 0.189, CANNOT_TELL),         # 5 %: 10 g
    (0.0784, 0.0860, INCONSISTENT), (0.0784, 0.0820, CONSISTENT),
    (0.0784, 0.0, CANNOT_TELL)])
def test_the_threshold_is_three_u_or_a_twentieth(total, parts, outcome):
    assert unaccounted_mass(total, parts, 0.0).outcome == outcome


def test_more_than_the_whole_points_at_the_readings():
    assert "includes something else" in unaccounted_mass(0.05, 0.09, 0.0).sentence


def test_a_part_without_function_that_was_found_is_remembered():
    assert "that was found" in unaccounted_mass(0.0784, 0.0512, 0.010).sentence


@pytest.mark.parametrize("total, parts", [(NAN, 0.05), (0.05, NAN)])
def test_an_unknown_mass_is_nothing_to_check(total, parts):
    assert unaccounted_mass(total, parts, 0.0) is None


def test_a_unit_without_claims_is_checked_too():
    seen = [("mass_total", 0.0784, 1e-4), ("mass_accounted", 0.0512, 1e-3)]
    assert outcomes(unaccounted_mass, seen, []) == [CANNOT_TELL]
