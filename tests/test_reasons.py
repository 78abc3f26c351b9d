"""The list of reasons: each with a code, words, a rule, and a time to look."""
from teardowns.reasons import (
    AGAINST,
    BY_CODE,
    DECIDABLE,
    DECISION_REASONS,
    HARM_WORDS,
    NEVER_AGAINST,
    REASONS,
    REPORTABLE,
)


def test_codes_are_unique_short_and_plain():
    codes = [one.code for one in (*REASONS, *DECISION_REASONS)]
    assert len(codes) == len(set(codes)) == len(BY_CODE)
    assert all(code.replace("_", "").isalpha() and len(code) <= 20 for code in codes)


def test_each_says_what_it_is_and_which_rule_it_applies():
    assert all(one.words and one.rule.endswith(".") and one.harm in HARM_WORDS
               for one in BY_CODE.values())


def test_personal_data_is_looked_at_within_the_hour_and_all_else_within_a_day():
    assert BY_CODE["personal_data"].hours == 1
    assert all(1 <= one.hours <= 24 for one in BY_CODE.values())


def test_a_report_can_give_no_reason_that_only_a_decision_has():
    assert {code for code, _ in REPORTABLE} == {one.code for one in REASONS}
    assert len(DECIDABLE) == len(BY_CODE)


def test_nothing_is_taken_from_anybody_because_no_rule_was_broken():
    assert {code for code, _ in AGAINST} == set(BY_CODE) - NEVER_AGAINST
    assert {one.code for one in REASONS} | {"incomplete", "abuse"} == {code for code, _ in AGAINST}
