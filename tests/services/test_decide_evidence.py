"""One decision on one row, and what follows from it."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import ReviewDecision
from teardowns.services.claim_review import release_review
from teardowns.services.decide_evidence import ChangedRow, NotDecided, Reading
from tests.reviews import decide, handed_in, take_on

pytestmark = pytest.mark.django_db


@pytest.fixture
def held(unit, rita):
    """A unit of 50 ± 1 g (95 %), so u = 0.5 g, that Rita reviews."""
    handed_in(unit)
    take_on(rita, unit)
    return unit


def state(unit):
    return unit.measurements.get().review_state


def test_a_confirmation_confirms_and_is_logged_once(held, rita):
    before = Entry.objects.count()
    decided = decide(rita, held)
    assert decided.is_new and decided.moved and state(held) == "confirmed"
    entry, = Entry.objects.filter(sequence__gt=before)
    assert (entry.action, entry.subject) == ("evidence_decided", "measurement/m0")


def test_a_decision_does_not_make_another_version_of_the_row(held, rita):
    decide(rita, held)
    row = held.measurements.get()
    assert row.version == 1 and row.history.count() == 1


def test_the_same_decision_sent_twice_is_kept_once(held, rita):
    decide(rita, held)
    count = Entry.objects.count()
    assert not decide(rita, held).is_new
    assert ReviewDecision.objects.count() == 1 and Entry.objects.count() == count


def test_a_dispute_needs_a_reason(held, rita):
    with pytest.raises(NotDecided, match="Say why"):
        decide(rita, held, "disputed", reason="  ")
    decide(rita, held, "disputed", reason="The scale shows 60 g")
    assert state(held) == "disputed"


def test_one_dispute_outweighs_a_confirmation(held, rita, rolf):
    take_on(rolf, held)
    decide(rita, held)
    decide(rolf, held, "disputed", reason="Another unit is on the scale")
    assert state(held) == "disputed"
    decide(rolf, held)
    assert state(held) == "confirmed"


def test_a_later_word_leaves_the_earlier_one(held, rita):
    decide(rita, held, "disputed", reason="Blurred")
    decide(rita, held)
    assert list(ReviewDecision.objects.values_list("decision", flat=True)) == [
        "disputed", "confirmed"]


@pytest.mark.parametrize(("value", "u", "agrees", "after"), [
    # 2 · √(0.5² + 0.5²) = 1.41 g
    (0.0514, 0.0005, True, "remeasured"), (0.0515, 0.0005, False, "disputed"),
    (0.0514, None, None, "open"),
])
def test_a_second_reading_counts_by_whether_it_agrees(held, rita, value, u, agrees, after):
    word = decide(rita, held, "remeasured", reason="Kitchen scale",
                  reading=Reading(value, u)).word
    assert word.agrees is agrees and state(held) == after
    row = held.measurements.get()
    assert row.value == 0.05 and word.second_value == value


def test_a_second_reading_needs_a_number_and_a_row_that_holds_one(held, rita):
    with pytest.raises(NotDecided, match="what you measured"):
        decide(rita, held, "remeasured")


def test_a_row_that_changed_meanwhile_is_told(held, rita):
    held.measurements.update(version=2)
    with pytest.raises(ChangedRow, match="changed since"):
        decide(rita, held)
    assert ReviewDecision.objects.count() == 0


def test_a_row_that_is_gone_is_told(held, rita):
    with pytest.raises(ChangedRow, match="no longer there"):
        decide(rita, held, ref="measurement/other")
    with pytest.raises(ChangedRow):
        decide(rita, held, ref="unit/title")


def test_nobody_decides_about_a_row_of_their_own(held, rita):
    held.measurements.update(author=rita)
    with pytest.raises(NotDecided, match="yourself"):
        decide(rita, held)


@pytest.mark.parametrize("decision", ["open", "", "published"])
def test_only_the_three_decisions_are_decisions(held, rita, decision):
    with pytest.raises(NotDecided, match="Choose a decision"):
        decide(rita, held, decision)


def test_whoever_does_not_hold_a_review_decides_nothing(held, rita, rolf):
    with pytest.raises(Http404):
        decide(rolf, held)
    release_review(reviewer=rita, unit_pk=held.pk)
    with pytest.raises(Http404):
        decide(rita, held)


@pytest.mark.parametrize("state_of_work", ["draft", "sent_back", "published", "withdrawn",
                                           "declined", "discarded"])
def test_nothing_is_decided_once_the_work_left_the_review(held, rita, state_of_work):
    type(held).objects.update(status=state_of_work)
    with pytest.raises(Http404):
        decide(rita, held)


def test_the_two_sides_are_renewed_when_a_row_starts_to_count(held, rita):
    before = held.reviews.get().sides
    decide(rita, held)
    after = held.reviews.get().sides
    assert before["confirmed"]["capability"] is None
    assert after["confirmed"]["capability"] == after["all"]["capability"] is not None
