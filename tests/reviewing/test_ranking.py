"""The factors are a rule of our own: each expected number is worked out beside it."""
import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.reviewing.ranking import Waiting, rank

SURE = {"plausibility": 1.0, "confirmed": 1.0, "reach": 0}       # uncertainty 1, reach 1


def score(days=0.0, **known):
    return rank(Waiting(days=days, **{**SURE, **known})).score


def test_a_level_more_counts_twice():
    assert [score(risk=level) for level in range(5)] == [1.0, 2.0, 4.0, 8.0, 16.0]


def test_a_point_without_a_level_stands_between_none_and_low():
    assert score() < score(flags=3) < score(risk=1)


def test_ten_times_the_sales_count_one_more():
    # 1 + log10(1 + 9) = 2 and 1 + log10(1 + 99) = 3
    assert score(reach=9) == pytest.approx(2.0)
    assert score(reach=99) == pytest.approx(3.0)


def test_unknown_reach_is_no_zero():
    assert score(reach=None) == score(reach=100) > score(reach=0)


def test_a_verdict_without_confirmed_evidence_hangs_on_the_rest_whole():
    # 1 + 1 + 4 · 0.05 · 0.95 = 2.19
    assert score(plausibility=0.05, confirmed=None) == pytest.approx(2.19)


def test_a_verdict_that_confirmed_evidence_gives_as_well_counts_by_its_own_doubt():
    # 1 + 0 + 4 · 0.5 · 0.5 = 2
    assert score(plausibility=0.5, confirmed=0.5) == pytest.approx(2.0)


def test_a_week_counts_one_more():
    assert score(days=7.0) == pytest.approx(2.0)


def test_a_harmless_unit_passes_a_serious_one_of_today_after_fifteen_weeks():
    # 1 + 15 = 16
    assert score(days=7 * 15.1) > score(risk=4) > score(days=7 * 14.9)


def test_a_clock_that_runs_ahead_takes_nothing_away():
    assert score(days=-3.0) == score()


def test_a_unit_that_somebody_reviews_comes_later_unless_it_is_serious():
    assert score(risk=3, is_held=True) == 0.25 * score(risk=3)
    assert score(risk=4, is_held=True) == score(risk=4)


def test_the_reasons_are_words_in_the_order_of_the_factors():
    found = rank(Waiting(days=9.5, risk=4, reach=12_000, plausibility=0.04))
    assert found.reasons == (
        "a serious finding", "its listing shows 12\u202f000 sales",
        "the verdict hangs on unconfirmed rows", "waiting 9 days")


def test_what_is_not_known_is_said_and_is_no_error():
    assert rank(Waiting(days=0.2)).reasons == (
        "no finding", "reach not known", "no claim judged yet", "sent in today")


@given(st.builds(Waiting, days=st.floats(0, 4000), risk=st.integers(0, 4),
                 flags=st.integers(0, 9), reach=st.none() | st.integers(0, 10**8),
                 plausibility=st.none() | st.floats(0, 1), confirmed=st.none() | st.floats(0, 1)))
def test_no_factor_silences_the_others(unit):
    assert rank(unit).score >= 1.0


@given(st.floats(0, 1000), st.integers(0, 3), st.integers(0, 10**6))
def test_more_risk_reach_or_age_never_comes_later(days, risk, reach):
    here = score(days, risk=risk, reach=reach)
    assert score(days, risk=risk + 1, reach=reach) >= here
    assert score(days, risk=risk, reach=reach + 1) >= here
    assert score(days + 1, risk=risk, reach=reach) >= here
