"""Limits of Regulation (EU) 2019/1782, Annex II: AC-DC to 49 W 0.10 W, above 0.21 W; several
voltages 0.30 W. Level V 0.3 W below 50 W, level IV 0.5 W.
"""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.no_load_mark import no_load_mark
from tests.engine.make import NAN
from tests.engine.rules.ask import outcomes


def outcome(level, measured, *claims):
    return no_load_mark(level, measured, NAN, *zip(*claims, strict=True)).outcome


@pytest.mark.parametrize("measured, expected", [
    (0.0, CONSISTENT), (0.10, CONSISTENT), (0.11, CANNOT_TELL), (0.149, CANNOT_TELL),
    (0.151, INCONSISTENT), (3.0, INCONSISTENT)])
def test_18_watts_of_level_vi(measured, expected):
    assert outcome(6.0, measured, (12.0, 1.5, 18.0)) == expected


@pytest.mark.parametrize("level, claim, most", [
    (6.0, (20.0, 3.25, 65.0), 0.21), (5.0, (12.0, 1.5, 18.0), 0.3), (5.0, (19.0, 3.5, 66.5), 0.5),
    (4.0, (12.0, 1.5, 18.0), 0.5)])
def test_each_mark_allows_its_own(level, claim, most):
    assert outcome(level, most, claim) == CONSISTENT
    assert outcome(level, most + 0.06, claim) == INCONSISTENT


@pytest.mark.parametrize("measured, expected", [
    (0.09, CONSISTENT), (0.20, CANNOT_TELL), (0.34, CANNOT_TELL), (0.36, INCONSISTENT)])
def test_of_several_voltages_the_least_demanding_reading_counts_against_the_unit(measured,
                                                                                 expected):
    assert outcome(6.0, measured, (5.0, 3.0, 15.0), (9.0, 3.0, 27.0)) == expected


@pytest.mark.parametrize("most, expected", [
    (0.05, CONSISTENT), (0.1, CONSISTENT), (0.5, CANNOT_TELL)])
def test_less_than_the_meter_resolves_is_within_what_is_no_less(most, expected):
    assert no_load_mark(6.0, NAN, most, (12.0,), (1.5,), (18.0,)).outcome == expected


def test_not_measured_says_what_is_allowed():
    found = no_load_mark(6.0, NAN, NAN, (12.0,), (1.5,), (18.0,))
    assert found.outcome == CANNOT_TELL and "allows 0.1\u202fW" in found.sentence


@pytest.mark.parametrize("level, power", [(NAN, 18.0), (6.0, NAN)])
def test_without_a_mark_or_a_claim_there_is_nothing_to_check(level, power):
    assert no_load_mark(level, 0.08, NAN, (12.0,), (1.5,), (power,)) is None


def test_a_unit_is_checked_once():
    plate = [("efficiency_level", 6.0, 0.0), ("no_load_power", 0.05, 0.005)]
    assert outcomes(no_load_mark, plate, [(12.0, 1.5, 18.0), (12.0, 1.0, 12.0)]) == [CONSISTENT]
