"""Minima of Regulation (EU) 2019/1782, Annex II: AC-DC 18 W 0.8500, 27 W 0.8662; low voltage 10 W
0.7870; multiple voltage 30 W 0.8161. Level V and IV from their own tables.
"""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.efficiency_mark import efficiency_mark
from tests.engine.make import NAN
from tests.engine.rules.ask import checks, outcomes


def outcome(level, measured, *claims):
    return efficiency_mark(level, measured, *zip(*claims, strict=True)).outcome


@pytest.mark.parametrize("measured, expected", [
    (0.95, CONSISTENT), (0.8501, CONSISTENT), (0.8499, CANNOT_TELL),
    (0.8080, CANNOT_TELL), (0.8070, INCONSISTENT), (0.2, INCONSISTENT)])   # 0.95·0.8500 = 0.8075
def test_18_watts_at_12_volts(measured, expected):
    assert outcome(6.0, measured, (12.0, 1.5, 18.0)) == expected


@pytest.mark.parametrize("level, measured, expected", [
    (6.0, 0.74, INCONSISTENT),       # asked 0.7870, with tolerance 0.7477
    (5.0, 0.74, CONSISTENT),         # 0.075·ln 10 + 0.561 = 0.7337
    (4.0, 0.72, CONSISTENT),         # 0.09·ln 10 + 0.5 = 0.7072
    (4.0, 0.66, INCONSISTENT)])      # with tolerance 0.6719
def test_each_mark_asks_for_its_own(level, measured, expected):
    assert outcome(level, measured, (5.0, 2.0, 10.0)) == expected


@pytest.mark.parametrize("measured, expected", [
    (0.87, CONSISTENT), (0.82, CANNOT_TELL), (0.78, CANNOT_TELL), (0.76, INCONSISTENT)])
def test_of_several_voltages_the_least_demanding_reading_counts_against_the_unit(measured,
                                                                                 expected):
    # 0.8082 as multiple voltage to 0.8662 as AC-DC; with tolerance 0.7678.
    assert outcome(6.0, measured, (5.0, 3.0, 15.0), (9.0, 3.0, 27.0)) == expected


def test_not_measured_says_what_is_asked():
    found = efficiency_mark(6.0, NAN, (12.0,), (1.5,), (18.0,))
    assert found.outcome == CANNOT_TELL
    assert "not measured" in found.sentence and "85\u202f%" in found.sentence


@pytest.mark.parametrize("level, power", [(NAN, 18.0), (3.0, 18.0), (6.0, NAN)])
def test_without_a_mark_or_a_claim_there_is_nothing_to_check(level, power):
    assert efficiency_mark(level, 0.8, (12.0,), (1.5,), (power,)) is None


def test_a_unit_is_checked_once_for_all_its_claims():
    plate = [("efficiency_level", 6.0, 0.0), ("average_efficiency", 0.70, 0.005)]
    claims = [(12.0, 1.5, 18.0), (9.0, 2.0, 18.0)]
    assert outcomes(efficiency_mark, plate, claims) == [INCONSISTENT]


def test_the_default_efficiency_is_no_measurement():
    # Every unit has a default efficiency at full load; the average one has to be measured.
    done = checks(efficiency_mark, [("efficiency_level", 6.0, 0.0)], [(12.0, 1.5, 18.0)])
    assert [each["outcome"] for each in done] == [CANNOT_TELL] and done[0]["claim"] is None


def test_the_sentence_is_about_the_unit_examined():
    found = efficiency_mark(6.0, 0.70, (12.0,), (1.5,), (18.0,))
    assert "In the unit examined" in found.sentence and "70\u202f%" in found.sentence
