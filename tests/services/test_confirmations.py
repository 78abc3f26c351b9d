"""Two people, each alone, on every row as it stands now."""
import pytest

from teardowns.models import Measurement, Review, ReviewDecision
from teardowns.services.confirmations import confirmations

pytestmark = pytest.mark.django_db
FINDING = {"scenario": "loose_metal", "evidence": ["measurement/a", "measurement/b"]}
VERSIONS = {"measurement/a": 1, "measurement/b": 3}


def decide(unit, reviewer, decision="confirmed", refs=tuple(VERSIONS), versions=VERSIONS):
    review = Review.objects.create(unit=unit, reviewer=reviewer)
    for ref in refs:
        ReviewDecision.objects.create(
            review=review, ref=ref, evidence_version=versions[ref], decision=decision,
            reason="seen otherwise" if decision == "disputed" else "")
    Review.objects.filter(pk=review.pk).update(closed_at=review.opened_at)


def rows(author):
    return {ref: Measurement(version=version, author=author) for ref, version in VERSIONS.items()}


def count(unit, author=None):
    return confirmations(unit, [FINDING], rows(author or unit.contributor))["loose_metal"]


def test_two_reviewers_who_confirmed_every_row_are_two(unit, rita, mona):
    decide(unit, rita)
    decide(unit, mona)
    assert count(unit) == 2


def test_the_contributor_does_not_count(unit, alice, rita):
    decide(unit, alice)
    decide(unit, rita)
    assert count(unit) == 1


def test_who_entered_a_row_does_not_confirm_it(unit, rita, mona):
    decide(unit, rita)
    decide(unit, mona)
    assert count(unit, author=mona) == 1


def test_a_row_that_was_left_out_or_changed_since_is_not_confirmed(unit, rita, mona):
    decide(unit, rita, refs=["measurement/a"])
    decide(unit, mona, versions=VERSIONS | {"measurement/b": 2})
    assert count(unit) == 0


def test_the_last_word_counts(unit, rita):
    decide(unit, rita)
    decide(unit, rita, "disputed")
    assert count(unit) == 0


def test_a_finding_that_cites_nothing_is_confirmed_by_nobody(unit):
    assert confirmations(unit, [FINDING | {"evidence": []}], {}) == {"loose_metal": 0}


def test_it_asks_once(unit, rita, django_assert_num_queries):
    decide(unit, rita)
    with django_assert_num_queries(1):
        confirmations(unit, [FINDING, FINDING], rows(unit.contributor))
