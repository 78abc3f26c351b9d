"""What stands beside a unit is named anew in the transaction of whatever changes it."""
import pytest
from django.utils import timezone

from teardowns.models import (
    BoardFamilyMember,
    FamilyPool,
    ProposalState,
    SisterReport,
    Status,
    Unit,
)
from teardowns.services.edit_family import remove_member
from teardowns.services.list_units import list_units
from teardowns.services.want_sisters import want_sisters
from tests.library import family as opened
from tests.likenesses import board
from tests.published import published

pytestmark = pytest.mark.django_db


def join(family, unit, proposer, moderator):
    member = BoardFamilyMember.objects.create(
        family=family, unit=unit, proposer=proposer, why="One layout.", reason="Looked at both.",
        state=ProposalState.ACCEPTED, decided_by=moderator, decided_at=timezone.now())
    list_units([unit.pk])
    return member


@pytest.fixture
def sisters(alice, bob, mona):
    """Two units of one family."""
    made = [board(alice, "One"), board(alice, "Two")]
    family = opened(mona)
    return [join(family, unit, bob, mona) for unit in made]


def wanted():
    return dict(SisterReport.objects.values_list("publication__unit", "wanted"))


def test_each_unit_of_a_family_wants_a_report(sisters):
    assert set(wanted()) == {one.unit_id for one in sisters}
    assert FamilyPool.objects.count() == 1 and not FamilyPool.objects.get().holds


def test_one_unit_alone_wants_none(alice, bob, mona):
    join(opened(mona), board(alice, "One"), bob, mona)
    assert wanted() == {} and FamilyPool.objects.count() == 1


def test_a_new_version_of_a_sister_moves_what_is_wanted(sisters):
    before = wanted()
    published(sisters[1].unit)
    after = wanted()
    assert all(after[pk] != before[pk] for pk in before)


def test_what_did_not_move_is_wanted_as_before(sisters):
    before = wanted()
    list_units([sisters[0].unit_id])
    assert wanted() == before


def test_a_sister_out_of_sight_lends_nothing_any_more(sisters):
    Unit.objects.filter(pk=sisters[1].unit_id).update(status=Status.WITHDRAWN)
    list_units([sisters[1].unit_id])
    assert wanted() == {}


def test_removed_from_the_family_it_takes_its_report_along(sisters, mona):
    remove_member(moderator=mona, member_pk=sisters[1].pk, version=1, reason="Two layouts.")
    assert wanted() == {}


def test_a_unit_of_no_family_costs_one_query(alice, django_assert_num_queries):
    unit = board(alice, "One")
    with django_assert_num_queries(1):
        want_sisters([unit.pk])
