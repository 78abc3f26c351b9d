"""Board families: the heading, a unit proposed, decided, removed; every event in every state."""
import pytest
from django.db import IntegrityError, transaction
from django.http import Http404

from core.audit.models import Entry
from core.stale import Stale
from teardowns.models import BoardFamily, BoardFamilyMember, ProposalState, Status, Unit
from teardowns.services.edit_family import (
    create_family,
    decide_member,
    propose_member,
    remove_member,
    rename_family,
    take_back_member,
)
from teardowns.services.proposals import Refused
from teardowns.workflow import NotNow
from tests.library import contain, listed
from tests.library import family as opened
from tests.published import published

pytestmark = pytest.mark.django_db
TEXTS = {"name": "Board HB-12", "description": "One layer.", "evidence_for": "",
         "evidence_against": ""}
STATES = {"proposed": (), "accepted": ("accept",), "declined": ("decline",),
          "taken_back": ("take_back",), "removed": ("accept", "remove")}
MAY = {("proposed", "accept"), ("proposed", "decline"), ("proposed", "take_back"),
       ("accepted", "remove")}


@pytest.fixture
def family(mona):
    return opened(mona)


@pytest.fixture
def public(unit):
    """Alice's unit as everybody sees it."""
    published(unit)
    return unit


@pytest.fixture
def member(family, public, bob):
    return propose_member(proposer=bob, family_pk=family.pk, unit_pk=public.pk,
                          why="The same board number.")


def act(event, member, moderator):
    member.refresh_from_db()
    said = {"moderator": moderator, "member_pk": member.pk, "version": member.version,
            "reason": "Looked at both."}
    if event == "take_back":
        return take_back_member(proposer=member.proposer, member_pk=member.pk)
    if event == "remove":
        return remove_member(**said)
    return decide_member(accepted=event == "accept", **said)


@pytest.mark.parametrize("event", ["accept", "decline", "take_back", "remove"])
@pytest.mark.parametrize("state", STATES)
def test_every_event_in_every_state(member, mona, state, event):
    for before in STATES[state]:
        act(before, member, mona)
    entries = Entry.objects.count()
    if (state, event) in MAY:
        act(event, member, mona)
        assert Entry.objects.count() == entries + 1
        return
    with pytest.raises(NotNow):
        act(event, member, mona)
    assert Entry.objects.count() == entries


def test_a_proposal_is_no_membership(family, member):
    assert not family.published_units().exists()


def test_the_accepted_unit_stands_in_the_family_until_it_is_not_public(family, member, mona):
    act("accept", member, mona)
    assert list(family.published_units()) == [member.unit]
    Unit.objects.update(status=Status.WITHDRAWN)
    assert not family.published_units().exists()


def test_a_removed_unit_can_be_proposed_again(family, member, mona, bob):
    act("accept", member, mona)
    act("remove", member, mona)
    again = propose_member(proposer=bob, family_pk=family.pk, unit_pk=member.unit_id,
                           why="A second look at the board number.")
    assert again.pk != member.pk and not family.published_units().exists()


def test_a_unit_is_proposed_once_at_a_time(family, member, alice):
    with pytest.raises(Refused, match="belongs to the family already"):
        propose_member(proposer=alice, family_pk=family.pk, unit_pk=member.unit_id, why="So.")
    assert BoardFamilyMember.objects.count() == 1


def test_a_draft_belongs_to_no_family(family, unit, bob):
    with pytest.raises(Refused, match="published unit"):
        propose_member(proposer=bob, family_pk=family.pk, unit_pk=unit.pk, why="So.")


def test_what_is_not_public_any_more_is_not_taken_in(member, mona):
    Unit.objects.update(status=Status.WITHDRAWN)
    with pytest.raises(NotNow, match="not public any more"):
        act("accept", member, mona)


def test_a_moderator_decides_neither_on_their_own_proposal_nor_on_their_own_unit(
        family, public, mona, milo):
    own = propose_member(proposer=mona, family_pk=family.pk, unit_pk=public.pk, why="So.")
    with pytest.raises(Http404):
        act("accept", own, mona)
    Unit.objects.update(contributor=milo)
    with pytest.raises(Http404):
        act("accept", own, milo)


@pytest.mark.parametrize("event", ["accept", "decline", "remove"])
def test_who_is_no_moderator_decides_nothing(member, rita, ada, mona, event):
    if event == "remove":
        act("accept", member, mona)
    for person in (rita, ada, member.proposer):
        with pytest.raises(Http404):
            act(event, member, person)


def test_the_database_refuses_a_decision_by_the_proposer(member, bob):
    with pytest.raises(IntegrityError), transaction.atomic():
        BoardFamilyMember.objects.update(state=ProposalState.ACCEPTED, decided_by=bob, reason="M",
                                         decided_at=member.proposed_at)


@pytest.mark.parametrize("event", ["accept", "decline", "remove"])
def test_a_stale_decision_changes_nothing(member, mona, event):
    if event == "remove":
        act("accept", member, mona)
    member.refresh_from_db()
    said = {"moderator": mona, "member_pk": member.pk, "version": member.version + 1,
            "reason": "Looked."}
    with pytest.raises(Stale):
        if event == "remove":
            remove_member(**said)
        else:
            decide_member(accepted=event == "accept", **said)


def test_a_decision_needs_its_reason(member, mona):
    with pytest.raises(Refused, match="Say why"):
        decide_member(moderator=mona, member_pk=member.pk, version=1, accepted=True, reason=" ")


def test_a_family_is_opened_and_keeps_its_address_when_renamed(mona):
    made = create_family(moderator=mona, **TEXTS)
    assert made.slug == "board-hb-12"
    renamed = rename_family(moderator=mona, family_pk=made.pk, version=1,
                            **TEXTS | {"name": "Board HB-12, rev. B"})
    assert (renamed.slug, renamed.version) == ("board-hb-12", 2)
    assert made.history.count() == 2


def test_lists_print_a_new_name_at_once(client, family, public, rita, mona):
    member = propose_member(proposer=rita, family_pk=family.pk, unit_pk=public.pk, why="One print.")
    decide_member(moderator=mona, member_pk=member.pk, version=1, accepted=True, reason="Looked.")
    assert f"<span>{family.name}</span>" in client.get("/units/").content.decode()
    rename_family(moderator=mona, family_pk=family.pk, version=family.version,
                  **TEXTS | {"name": "Quite another"})
    assert "<span>Quite another</span>" in client.get("/units/").content.decode()


@pytest.mark.parametrize(("name", "slug"), [("Open", "open-2"), ("—", "family")])
def test_a_name_never_takes_an_address_of_the_site(mona, name, slug):
    assert create_family(moderator=mona, **TEXTS | {"name": name}).slug == slug


def test_two_families_with_one_slug_have_two_addresses(mona, family):
    assert create_family(moderator=mona, **TEXTS | {"name": "Board HB 12"}).slug == "board-hb-12-2"


def test_a_name_is_used_once(mona, family):
    with pytest.raises(Refused, match="Another family has this name"):
        create_family(moderator=mona, **TEXTS)
    assert BoardFamily.objects.count() == 1


def test_a_family_that_changed_meanwhile_is_shown_beside_what_was_written(mona, family):
    with pytest.raises(Stale) as stale:
        rename_family(moderator=mona, family_pk=family.pk, version=7, **TEXTS)
    assert stale.value.current["name"] == family.name


def test_only_a_moderator_keeps_the_heading(rita, family):
    for change in (lambda: create_family(moderator=rita, **TEXTS | {"name": "Other"}),
                   lambda: rename_family(moderator=rita, family_pk=family.pk, version=1, **TEXTS)):
        with pytest.raises(Http404):
            change()


def test_texts_name_rows_that_a_published_unit_has(mona, public, alice):
    contain(public, listed(mona, watts=None))
    named = f"{public.pk}/component/ctrl"
    made = create_family(moderator=mona, **TEXTS | {"evidence_for": f"See {named}."})
    with pytest.raises(Refused, match=f"has {public.pk}/component/other") as refused:
        rename_family(moderator=mona, family_pk=made.pk, version=1,
                      **TEXTS | {"evidence_against": f"But {public.pk}/component/other."})
    assert list(refused.value.errors) == ["evidence_against"]
