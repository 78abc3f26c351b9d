"""Was / is now: what another rulebook says of a version."""
from datetime import UTC, datetime
from types import SimpleNamespace

import pytest

from teardowns.presenting.now_and_then import UNMOVED, now_and_then
from tests.exchange.test_verdict_changes import CLAIM, GAP, HELD, report


def version(then, now, rulebook="4+0a1b2c3d"):
    def said(payload, by):
        return SimpleNamespace(payload=payload, rulebook=by)

    return SimpleNamespace(assessment=said(then, "3+11223344"), standing=said(now, rulebook),
                           published_at=datetime(2026, 4, 2, tzinfo=UTC))


@pytest.fixture(scope="module")
def before():
    return report(claims=[CLAIM], insulation=[GAP | {"value": 8e-3}])


@pytest.fixture(scope="module")
def after():
    return report(claims=[CLAIM], measurements=[HELD], insulation=[GAP | {"value": 2e-4}])


def test_under_the_rulebook_of_its_day_there_is_nothing_to_say(before, after):
    assert now_and_then(version(before, after, "3+11223344")) is None


def test_what_moved_is_counted_and_both_rulebooks_are_named(before, after):
    found = now_and_then(version(before, after))
    assert found["sentence"].endswith("moved 1 verdict word and the gravest level.")
    assert "edition 3, 11223344 on 2026-04-02" in found["rulebooks"]
    assert "edition 4, 0a1b2c3d now" in found["rulebooks"]
    assert found["verdicts"].claims and found["verdicts"].safety


def test_a_rulebook_that_says_the_same_is_told_in_one_sentence(after):
    found = now_and_then(version(after, after))
    assert found["sentence"] == UNMOVED and found["verdicts"].tables == []
