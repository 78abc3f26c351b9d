"""Taking on a review, giving it back, closing it; conflicts, places, idle reviews."""
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta

import pytest
from django.db import connection, transaction
from django.http import Http404
from django.utils import timezone

from core.audit.models import Entry
from teardowns.models import Affiliation, Review, Status
from teardowns.services.claim_review import (
    IDLE,
    claim_review,
    close_review,
    lapse_idle,
    release_review,
)
from teardowns.services.move_work import locked_unit, move
from teardowns.workflow import EVENTS, STATES, NotNow
from tests.cast import person
from tests.reviews import decide, handed_in, take_on

pytestmark = pytest.mark.django_db


@pytest.fixture
def waiting(unit):
    return handed_in(unit)


def status(unit):
    unit.refresh_from_db()
    return unit.status


def last_action():
    return Entry.objects.order_by("-sequence").first().action


def test_a_claim_puts_the_unit_in_review_and_is_logged_once(waiting, rita):
    before = Entry.objects.count()
    review = take_on(rita, waiting)
    assert status(waiting) == Status.IN_REVIEW and review.no_conflict
    assert Entry.objects.count() == before + 1 and last_action() == "work_claim"


def test_a_second_claim_of_the_same_person_is_the_first(waiting, rita):
    assert take_on(rita, waiting) == take_on(rita, waiting)
    assert Review.objects.count() == 1


def test_two_people_may_review_at_once_and_no_third(waiting, rita, rolf):
    take_on(rita, waiting)
    take_on(rolf, waiting)
    with pytest.raises(NotNow, match="Two people"):
        take_on(person("ruth", "reviewer"), waiting)


@pytest.mark.parametrize("state", STATES)
def test_a_unit_is_claimed_in_those_states_that_allow_it(unit, rita, state):
    handed_in(unit, status=state)
    if (state, "claim") in EVENTS:
        assert take_on(rita, unit).closed_at is None
    else:
        with pytest.raises(NotNow):
            take_on(rita, unit)


def test_nobody_claims_work_of_their_own(unit, rita):
    type(unit).objects.filter(pk=unit.pk).update(contributor=rita)
    unit.refresh_from_db()
    with pytest.raises(NotNow, match="your own"):
        take_on(rita, handed_in(unit))


def test_a_unit_in_quarantine_is_nobodys_to_review(waiting, rita):
    type(waiting).objects.update(quarantined_at=timezone.now())
    with pytest.raises(Http404):
        take_on(rita, waiting)


@pytest.mark.parametrize("who", ["alice", "bob", "mona", "ada"])
def test_whoever_is_no_reviewer_claims_nothing(waiting, who, request):
    with pytest.raises(Http404):
        take_on(request.getfixturevalue(who), waiting)


def test_a_conflict_refuses_the_review_and_is_kept(waiting, rita):
    review = claim_review(reviewer=rita, unit_pk=waiting.pk, no_conflict=False,
                          conflict="I work for its maker")
    assert review.closed_at and review.conflict == "I work for its maker"
    assert status(waiting) == Status.SUBMITTED and last_action() == "conflict_declared"
    with pytest.raises(NotNow, match="declared a conflict"):
        take_on(rita, waiting)


def test_a_claim_says_that_there_is_no_conflict_or_which(waiting, rita):
    for said in ({"no_conflict": False}, {"no_conflict": True, "conflict": "one"}):
        with pytest.raises(ValueError, match="conflict"):
            claim_review(reviewer=rita, unit_pk=waiting.pk, **said)


def test_a_tie_to_the_maker_keeps_a_reviewer_away(waiting, rita):
    type(waiting).objects.update(maker="Veltrice Electronics Co., Ltd.")
    Affiliation.objects.create(person=rita, organisation="Veltrice", relation="I work there")
    with pytest.raises(NotNow, match="tie to Veltrice: I work there"):
        take_on(rita, waiting)


def test_a_tie_to_the_contributor_counts_until_it_has_ended(waiting, rita, alice):
    tie = Affiliation.objects.create(person=rita, other=alice, relation="We share a flat")
    with pytest.raises(NotNow, match="tie to the contributor"):
        take_on(rita, waiting)
    tie.ended_at = timezone.now()
    tie.save()
    assert take_on(rita, waiting).closed_at is None


def reviewed(unit, reviewer, times):
    for _ in range(times):
        Review.objects.create(unit=unit, reviewer=reviewer, ending="done",
                              closed_at=timezone.now())


def test_after_ten_reviews_of_a_contributor_two_in_ten_is_the_most(waiting, rita, rolf):
    reviewed(waiting, rolf, 8)
    reviewed(waiting, rita, 2)          # one more would be 3 of 11
    with pytest.raises(NotNow, match="at most two"):
        take_on(rita, waiting)


def test_fewer_than_ten_reviews_bind_nobody(waiting, rita):
    reviewed(waiting, rita, 9)
    assert take_on(rita, waiting).closed_at is None


def test_a_claim_given_back_without_a_word_leaves_the_unit_waiting(waiting, rita):
    take_on(rita, waiting)
    review = release_review(reviewer=rita, unit_pk=waiting.pk)
    assert review.ending == "released" and status(waiting) == Status.SUBMITTED
    assert last_action() == "work_release"


def test_what_was_decided_stands_when_it_is_given_back(waiting, rita):
    take_on(rita, waiting)
    decide(rita, waiting)
    release_review(reviewer=rita, unit_pk=waiting.pk)
    assert status(waiting) == Status.IN_REVIEW and last_action() == "review_released"
    assert waiting.measurements.get().review_state == "confirmed"


def test_a_unit_that_somebody_else_holds_stays_in_review(waiting, rita, rolf):
    take_on(rita, waiting)
    take_on(rolf, waiting)
    release_review(reviewer=rita, unit_pk=waiting.pk)
    assert status(waiting) == Status.IN_REVIEW


def test_only_who_holds_a_review_gives_it_back_or_closes_it(waiting, rita, rolf):
    take_on(rita, waiting)
    for end in (release_review, close_review):
        with pytest.raises(Http404):
            end(reviewer=rolf, unit_pk=waiting.pk)


def test_a_review_is_closed_when_every_row_is_decided(unit, rita):
    handed_in(unit, {}, {})
    take_on(rita, unit)
    decide(rita, unit)
    with pytest.raises(NotNow, match="1 row is still without"):
        close_review(reviewer=rita, unit_pk=unit.pk)
    decide(rita, unit, ref="measurement/m1")
    review = close_review(reviewer=rita, unit_pk=unit.pk, remark="Plate hard to read")
    assert (review.ending, review.remark) == ("done", "Plate hard to read")
    assert status(unit) == Status.IN_REVIEW and last_action() == "review_closed"


def test_a_closed_review_leaves_both_assessments_as_they_are_now(waiting, rita):
    take_on(rita, waiting)
    decide(rita, waiting)
    close_review(reviewer=rita, unit_pk=waiting.pk)
    stored = {row.confirmed_only: row.capability for row in waiting.assessments.all()}
    assert stored[True] == stored[False] is not None


def test_rows_of_their_own_do_not_keep_a_reviewer_from_closing(unit, rita):
    handed_in(unit, {}, {"author": rita})
    take_on(rita, unit)
    decide(rita, unit)
    assert close_review(reviewer=rita, unit_pk=unit.pk).closed_at


def test_a_week_without_a_decision_ends_a_claim(waiting, rita):
    review = take_on(rita, waiting)
    Review.objects.filter(pk=review.pk).update(active_at=timezone.now() - IDLE)
    assert lapse_idle(timezone.now() - timedelta(minutes=1)) == 0
    assert lapse_idle() == 1 and lapse_idle() == 0
    review.refresh_from_db()
    assert review.ending == "lapsed" and status(waiting) == Status.SUBMITTED


def test_an_idle_claim_gives_its_place_to_who_asks(waiting, rita, rolf):
    for reviewer in (rita, rolf):
        take_on(reviewer, waiting)
    Review.objects.update(active_at=timezone.now() - 2 * IDLE)
    assert take_on(person("ruth", "reviewer"), waiting).closed_at is None
    assert Review.objects.filter(closed_at=None).count() == 1


def test_a_decision_keeps_a_claim_alive(waiting, rita):
    review = take_on(rita, waiting)
    Review.objects.filter(pk=review.pk).update(active_at=timezone.now() - 2 * IDLE)
    decide(rita, waiting)
    assert lapse_idle() == 0


def test_a_claim_tells_both_sides_of_the_evidence(waiting, rita):
    review = take_on(rita, waiting)
    review.refresh_from_db()
    assert {"all", "confirmed", "rests"} <= review.sides.keys()


def test_open_reviews_end_with_the_work(waiting, rita, mona):
    review = take_on(rita, waiting)
    with transaction.atomic():
        move(locked_unit(waiting.pk), "send_back", mona, "The plate is missing")
    review.refresh_from_db()
    assert review.ending == "moved_on" and review.closed_at


@pytest.mark.skipif(connection.vendor == "sqlite",
                    reason="SQLite in memory refuses a second thread instead of letting it wait")
@pytest.mark.django_db(transaction=True)
def test_many_claims_at_once_leave_two_people_and_one_claim_each(waiting, rita, rolf):
    """Eight requests of four people arrive together."""
    people = [rita, rolf, person("ruth", "reviewer"), person("rosa", "reviewer")]

    def ask(reviewer):
        try:
            return take_on(reviewer, waiting).pk
        except NotNow:
            return None
        finally:
            connection.close()

    with ThreadPoolExecutor(8) as pool:
        found = list(pool.map(ask, people * 2))
    held = Review.objects.filter(closed_at=None)
    assert held.count() == 2 and set(found) - {None} == {each.pk for each in held}
    claims = Entry.objects.filter(action="work_claim")
    assert claims.count() == 2
