"""What a moderator is told of a review."""
import pytest
from django.utils import timezone

from teardowns.models import Assessment, Correction, Measurement, Review, Unit
from teardowns.services.claim_review import claim_review, close_review, release_review
from teardowns.services.review_state import review_state, review_states
from tests.published import published
from tests.reviews import decide, handed_in, take_on

pytestmark = pytest.mark.django_db
REFS = ("measurement/m0", "measurement/m1")


@pytest.fixture
def two(unit):
    return handed_in(unit, {}, {})


def test_every_row_is_asked_and_says_what_it_lacks(two, rita):
    take_on(rita, two)
    decide(rita, two)
    state = review_state(two)
    assert (state.asked, state.decided, state.undecided) == (REFS, REFS[:1], REFS[1:])
    assert not state.is_ready
    assert state.lacking == "1 of 2 rows of evidence has no decision by a reviewer yet."


def test_it_is_ready_when_reviewers_together_decided_everything(two, rita, rolf):
    take_on(rita, two)
    take_on(rolf, two)
    decide(rita, two)
    decide(rolf, two, "disputed", REFS[1], reason="Another scale")
    state = review_state(two)
    assert state.is_ready and state.lacking == ""
    assert state.disputed == REFS[1:] and state.reviewers == ("rita", "rolf")


def test_a_decision_on_an_earlier_version_leaves_a_row_undecided(two, rita):
    take_on(rita, two)
    for ref in REFS:
        decide(rita, two, ref=ref)
    two.measurements.filter(key="m0").update(version=2)
    assert review_state(two).undecided == REFS[:1]


def test_open_claims_and_closing_remarks_are_told(unit, rita, rolf):
    handed_in(unit)
    take_on(rita, unit)
    decide(rita, unit)
    take_on(rolf, unit)
    close_review(reviewer=rita, unit_pk=unit.pk, remark="All well seen")
    state = review_state(unit)
    assert [claim.reviewer for claim in state.open_claims] == ["rolf"]
    assert [(each.reviewer, each.text) for each in state.remarks] == [("rita", "All well seen")]


def test_a_unit_that_nobody_handed_in_is_never_ready(unit, rita):
    Measurement.objects.create(unit=unit, key="m", quantity="mass_total", value=1.0,
                               author=unit.contributor)
    assert review_state(unit).lacking.startswith("It is not waiting")


def test_work_that_asks_for_nothing_needs_a_closed_review(unit, rita):
    Unit.objects.filter(pk=unit.pk).update(status="submitted", submitted_at=timezone.now())
    take_on(rita, unit)
    assert "no reviewer has closed" in review_state(unit).lacking
    close_review(reviewer=rita, unit_pk=unit.pk)
    assert review_state(unit).is_ready


def test_a_review_that_was_given_back_closes_nothing(unit, rita):
    Unit.objects.filter(pk=unit.pk).update(status="submitted", submitted_at=timezone.now())
    take_on(rita, unit)
    release_review(reviewer=rita, unit_pk=unit.pk)
    assert not review_state(unit).is_ready


@pytest.fixture
def serious(two):
    """A serious finding that rests on both rows."""
    Assessment.objects.create(unit=two, rulebook="3", evidence_digest="s", risk=4, payload={
        "safety": {"findings": [
            {"title": "Loose metal", "level": "serious", "evidence": list(REFS)},
            {"title": "Warm case", "level": "low", "evidence": list(REFS)}]}})
    return two


def test_a_serious_finding_lacks_people_until_two_confirmed_all_of_it(serious, rita, rolf):
    take_on(rita, serious)
    take_on(rolf, serious)
    for ref in REFS:
        decide(rita, serious, ref=ref)
    decide(rolf, serious)
    assert review_state(serious).serious_lacking == ("Loose metal",)
    decide(rolf, serious, ref=REFS[1])
    assert review_state(serious).serious_lacking == ()


def test_a_finding_that_a_newer_assessment_does_not_have_is_gone(serious):
    Assessment.objects.create(unit=serious, rulebook="3", evidence_digest="newer",
                              payload={"safety": {"findings": []}})
    assert review_state(serious).serious_lacking == ()


def test_of_a_correction_only_what_it_changed_is_asked(two, rita, bob):
    take_on(rita, two)
    for ref in REFS:
        decide(rita, two, ref=ref)
    base = published(two)
    Correction.objects.create(unit=two, author=bob, base=base, reason="Weighed anew",
                              status="submitted", submitted_at=timezone.now())
    two.measurements.filter(key="m1").update(version=2, author=bob, review_state="open")
    state = review_state(two)
    assert state.asked == REFS[1:] and not state.is_ready


def test_a_reviewer_who_met_the_author_often_is_a_remark(two, rita):
    Review.objects.bulk_create(Review(unit=two, reviewer=rita, ending="done",
                                      closed_at=timezone.now()) for _ in range(3))
    remark, = review_state(two).pairing
    assert remark.startswith("3 of 3 reviews of this contributor’s work are by rita")


def test_a_declared_conflict_is_told(two, rita):
    claim_review(reviewer=rita, unit_pk=two.pk, no_conflict=False, conflict="I sell chargers")
    told, = review_state(two).conflicts
    assert (told.reviewer, told.text) == ("rita", "I sell chargers")


def test_twenty_units_cost_as_many_queries_as_one(two, alice, django_assert_num_queries):
    units = [two, *(Unit.objects.create(contributor=alice, title=f"unit {n}") for n in range(20))]
    with django_assert_num_queries(6):
        assert len(review_states(units)) == 21
