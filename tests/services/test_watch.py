"""Who watches what: a unit itself, its families, the parts it names."""
import pytest
from django.utils import timezone

from core.accounts.models import User
from teardowns.models import BoardFamily, BoardFamilyMember, Component, Part, Watch
from teardowns.models.proposals import ProposalState
from teardowns.services import watch as service
from teardowns.services.watch import unwatch, watch, watchers_of, watches
from teardowns.workflow import NotNow

pytestmark = pytest.mark.django_db


def names(people):
    return sorted(people.values_list("username", flat=True))


def test_a_watch_is_kept_once_and_ends(bob, unit):
    assert watch(person=bob, thing=unit) and not watch(person=bob, thing=unit)
    assert watches(bob, unit) and Watch.objects.count() == 1
    assert unwatch(person=bob, thing=unit) and not unwatch(person=bob, thing=unit)
    assert not watches(bob, unit)


def test_watchers_of_a_unit_watch_it_a_family_of_it_or_a_part_that_it_names(
        alice, bob, rita, rolf, unit):
    family = BoardFamily.objects.create(name="Board A", slug="board-a", curator=alice)
    BoardFamilyMember.objects.create(
        family=family, unit=unit, proposer=alice, why="the same board", decided_by=rita,
        decided_at=timezone.now(), reason="it is", state=ProposalState.ACCEPTED)
    part = Part.objects.create(marking="QX123", curator=alice)
    Component.objects.create(unit=unit, author=alice, key="u1", role="other", part=part)
    for person, thing in ((bob, unit), (rita, family), (rolf, part)):
        watch(person=person, thing=thing)
    assert names(watchers_of(unit)) == ["bob", "rita", "rolf"]
    assert names(watchers_of(part)) == ["rolf"] and names(watchers_of(family)) == ["rita"]


def test_who_watches_a_family_hears_nothing_of_a_unit_that_was_only_proposed(alice, bob, unit):
    family = BoardFamily.objects.create(name="Board A", slug="board-a", curator=alice)
    BoardFamilyMember.objects.create(family=family, unit=unit, proposer=alice, why="perhaps")
    watch(person=bob, thing=family)
    assert not watchers_of(unit).exists()


def test_a_closed_account_hears_nothing(bob, unit):
    watch(person=bob, thing=unit)
    User.objects.update(is_active=False)
    assert not watchers_of(unit).exists()


def test_there_is_an_end_to_what_one_person_watches(bob, unit, alice, monkeypatch):
    monkeypatch.setattr(service, "MOST", 1)
    watch(person=bob, thing=unit)
    with pytest.raises(NotNow, match="Stop watching one"):
        watch(person=bob, thing=Part.objects.create(marking="QX123", curator=alice))
