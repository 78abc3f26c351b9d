"""The queue of one reviewer: order and reasons, and what is not offered and why."""
from datetime import timedelta

import pytest
from django.utils import timezone

from teardowns.models import Affiliation, Assessment, Correction, Review, Status, Unit
from teardowns.services import claim_review as claims
from teardowns.services.claim_review import claim_review, close_review
from teardowns.services.review_queue import DONE, review_queue
from tests.cast import person
from tests.published import published
from tests.reviews import decide, handed_in, take_on

pytestmark = pytest.mark.django_db


@pytest.fixture
def waiting(alice):
    """A unit that waits, with the columns of its assessment."""
    def make(title, days=0, contributor=None, maker="", reach=None, **columns):
        unit = Unit.objects.create(
            contributor=contributor or alice, title=title, maker=maker, listing_reach=reach,
            status=Status.SUBMITTED, submitted_at=timezone.now() - timedelta(days=days))
        Assessment.objects.create(unit=unit, rulebook="3", evidence_digest=title, payload={
            "safety": {"findings": []}}, **columns)
        return unit
    return make


def titles(entries):
    return [entry.unit.title for entry in entries]


def refusals(reviewer):
    return {entry.unit.title: entry.refusal for entry in review_queue(reviewer).refused}


def test_the_gravest_best_spread_least_sure_and_longest_waiting_come_first(waiting, rita):
    waiting("sure", plausibility=0.999, reach=10)
    waiting("undecided", plausibility=0.5, reach=10)
    waiting("spread", plausibility=0.5, reach=100_000)
    waiting("old", plausibility=0.5, reach=100_000, days=30)
    waiting("serious", plausibility=0.5, reach=100_000, days=30, risk=4)
    assert titles(review_queue(rita).offered) == ["serious", "old", "spread", "undecided", "sure"]


def test_the_reasons_stand_with_each(waiting, rita):
    waiting("Lamplit L5", days=9, risk=4, reach=12_000, plausibility=0.02)
    entry, = review_queue(rita).offered
    assert entry.reasons == (
        "a serious finding", "its listing shows 12\u202f000 sales",
        "the verdict hangs on unconfirmed rows", "waiting 9 days")


def test_a_verdict_that_confirmed_evidence_gives_too_is_less_urgent(waiting, rita):
    unit = waiting("known", plausibility=0.02)
    Assessment.objects.create(unit=unit, rulebook="3", evidence_digest="c", confirmed_only=True,
                              plausibility=0.02, payload={})
    assert "confirmed evidence says the same" in review_queue(rita).offered[0].reasons


@pytest.mark.parametrize("status", [Status.DRAFT, Status.SENT_BACK, Status.PUBLISHED,
                                    Status.WITHDRAWN, Status.DECLINED, Status.DISCARDED])
def test_what_does_not_wait_is_not_in_the_queue(waiting, rita, status):
    Unit.objects.filter(pk=waiting("elsewhere").pk).update(status=status)
    queue = review_queue(rita)
    assert (queue.offered, queue.refused, queue.held) == ((), (), ())


def test_a_unit_in_quarantine_is_not_in_the_queue(waiting, rita):
    Unit.objects.filter(pk=waiting("hidden").pk).update(quarantined_at=timezone.now())
    assert review_queue(rita).offered == ()


def test_a_correction_of_a_published_unit_waits_like_any_work(unit, rita, bob):
    base = published(unit)
    Correction.objects.create(unit=unit, author=bob, base=base, reason="Mass was wrong",
                              status="submitted", submitted_at=timezone.now())
    entry, = review_queue(rita).offered
    assert entry.is_correction and entry.reasons[-1] == "sent in today"


def test_own_work_is_not_offered_and_said_to_be_own(waiting, rita):
    waiting("mine", contributor=rita)
    assert refusals(rita) == {"mine": claims.OWN}


def test_own_corrections_of_others_units_are_not_offered(unit, rita):
    Correction.objects.create(unit=unit, author=rita, base=published(unit), reason="Mass",
                              status="submitted", submitted_at=timezone.now())
    assert refusals(rita) == {unit.title: claims.OWN}


def test_a_declared_conflict_keeps_a_unit_away(waiting, rita, rolf):
    unit = waiting("of a friend")
    claim_review(reviewer=rita, unit_pk=unit.pk, no_conflict=False, conflict="A friend")
    assert refusals(rita) == {"of a friend": claims.DECLARED}
    assert titles(review_queue(rolf).offered) == ["of a friend"]


def test_a_tie_to_the_maker_keeps_a_unit_away(waiting, rita):
    waiting("of the employer", maker="Veltrice GmbH")
    Affiliation.objects.create(person=rita, organisation="veltrice", relation="I work there")
    assert "tie to veltrice" in refusals(rita)["of the employer"]


def test_a_pair_that_met_too_often_is_kept_apart(waiting, rita, rolf):
    unit = waiting("the eleventh")
    for reviewer, times in ((rolf, 8), (rita, 2)):
        Review.objects.bulk_create(Review(
            unit=unit, reviewer=reviewer, ending="done",
            closed_at=timezone.now() - timedelta(days=9)) for _ in range(times))
    assert refusals(rita) == {"the eleventh": claims.PAIRED}


def test_who_holds_a_claim_and_since_when_is_shown(waiting, rita, rolf):
    unit = waiting("held")
    review = take_on(rolf, unit)
    claim, = review_queue(rita).offered[0].claims
    assert (claim.reviewer, claim.since) == ("rolf", review.opened_at)


def test_what_one_holds_stands_apart_with_the_day_it_lapses(waiting, rita):
    review = take_on(rita, waiting("mine to do"))
    queue = review_queue(rita)
    assert titles(queue.held) == ["mine to do"] and queue.offered == ()
    assert queue.held[0].lapses == review.active_at + claims.IDLE


def test_a_claim_that_idled_for_a_week_holds_nothing(waiting, rita, rolf):
    take_on(rolf, waiting("left"))
    Review.objects.update(active_at=timezone.now() - timedelta(days=8))
    assert review_queue(rita).offered[0].claims == ()


def test_a_unit_with_two_people_at_it_is_full(waiting, rita, rolf):
    unit = waiting("busy")
    take_on(rolf, unit)
    take_on(person("ruth", "reviewer"), unit)
    assert refusals(rita) == {"busy": claims.FULL}


def done(reviewer, unit):
    take_on(reviewer, unit)
    for row in unit.measurements.all():
        decide(reviewer, unit, ref=row.ref)
    close_review(reviewer=reviewer, unit_pk=unit.pk)


def grave(unit):
    """As if the engine went on finding it serious: the unit has no rows that it could find in."""
    Assessment.objects.filter(unit=unit).update(risk=4)


def test_a_reviewed_unit_waits_for_a_moderator_alone(unit, rita, rolf):
    done(rolf, handed_in(unit))
    queue = review_queue(rita)
    assert queue.decided == 1 and queue.offered == queue.refused == ()


def test_a_serious_finding_is_offered_to_a_second_person_and_to_no_third(waiting, rita, rolf):
    unit = waiting("grave", risk=4)
    done(rolf, unit)
    grave(unit)
    assert titles(review_queue(rita).offered) == ["grave"]
    assert refusals(rolf) == {"grave": DONE}
    done(rita, unit)
    grave(unit)
    assert review_queue(person("ruth", "reviewer")).decided == 1


def test_work_that_was_handed_in_anew_is_reviewed_anew(unit, rita, rolf):
    done(rolf, handed_in(unit))
    Unit.objects.update(submitted_at=timezone.now() + timedelta(seconds=1))
    assert titles(review_queue(rolf).offered) == [unit.title]


def test_forty_units_cost_as_many_queries_as_one(waiting, rita, django_assert_num_queries):
    for number in range(40):
        waiting(f"unit {number}", contributor=person(f"c{number}"))
    with django_assert_num_queries(5):
        assert len(review_queue(rita).offered) == 40
