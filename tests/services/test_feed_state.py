"""A feed's mark changes with whatever it tells, and its date never hides a change."""
import pytest

from core.audit.models import Entry
from teardowns.models import Publication
from teardowns.services.feed_state import feed_state
from teardowns.services.quarantine_unit import quarantine_unit
from teardowns.services.withdraw_unit import withdraw_unit
from tests.views.test_feeds import confirm, long_ago, public, replied

pytestmark = pytest.mark.django_db


@pytest.fixture
def before():
    unit = public()
    long_ago()
    return unit, feed_state()


def moved(state):
    """Both the mark and the date have changed, or no date is given at all."""
    now = feed_state()
    return now.etag != state.etag and (now.changed_at is None or now.changed_at > state.changed_at)


def test_nothing_that_happened_changes_nothing(before):
    assert feed_state() == before[1]


def test_a_quarantine_changes_it(before, mona):
    unit, state = before
    quarantine_unit(moderator=mona, unit_pk=unit.pk, code="personal_data", facts="a label")
    assert Entry.objects.exists() and moved(state)


def test_a_confirmation_changes_it(before, rita):
    confirm(before[0], rita)
    assert moved(before[1])


def test_a_reply_changes_it(before, bob, mona):
    replied(before[0], bob, mona)
    assert moved(before[1])


def test_a_new_assessment_changes_it(before):
    standing = Publication.objects.get().standing
    standing.pk, standing.rulebook = None, "f" * 12
    standing.save(force_insert=True)
    assert moved(before[1])


def test_a_record_less_changes_it(before):
    unit, state = before
    withdraw_unit(by=unit.contributor, unit_pk=unit.pk, code="not_this_unit", facts="Mixed up.")
    assert moved(state)


def test_feeds_differ_by_what_they_are_told_apart_by(before):
    assert feed_state("one").etag != feed_state("two").etag
