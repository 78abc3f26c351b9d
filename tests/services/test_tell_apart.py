"""A moderator says that two units which look alike have two boards."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import CandidateState, Likeness, Lookalike
from teardowns.services.edit_family import create_family, decide_member, propose_member
from teardowns.services.find_likenesses import find_likenesses
from teardowns.services.index_likeness import index_likeness
from teardowns.services.proposals import Refused
from teardowns.services.tell_apart import candidates, tell_apart
from teardowns.workflow import NotNow
from tests.likenesses import board, strangers

pytestmark = pytest.mark.django_db
TEXTS = {"name": "Board HB-12", "description": "", "evidence_for": "", "evidence_against": ""}


@pytest.fixture
def pair(alice):
    made = [board(alice, "One"), board(alice, "Two"), *strangers(alice)]
    index_likeness([unit.pk for unit in made])
    find_likenesses()
    return Lookalike.objects.get()


def apart(moderator, pair, reason="Another layout of the mains side."):
    return tell_apart(moderator=moderator, lookalike_pk=pair.pk, reason=reason)


def test_it_is_kept_with_its_reason_and_logged(pair, mona):
    apart(mona, pair)
    pair.refresh_from_db()
    assert (pair.state, pair.decided_by) == (CandidateState.APART, mona)
    assert Entry.objects.get(action="lookalike_apart").reason == pair.reason


def test_neither_page_names_the_other_any_more(pair, mona):
    assert all(Likeness.objects.get(unit=pk).alike for pk in (pair.first_id, pair.second_id))
    apart(mona, pair)
    assert not [row for one in Likeness.objects.all() for row in one.alike]
    assert not candidates().exists()


def test_it_takes_a_reason_a_moderator_and_happens_once(pair, mona, alice, rita):
    with pytest.raises(Refused):
        apart(mona, pair, "  ")
    for person in (alice, rita):
        with pytest.raises(Http404):
            apart(person, pair)
    apart(mona, pair)
    with pytest.raises(NotNow):
        apart(mona, pair)


def test_nobody_decides_about_a_unit_of_their_own(pair, mona):
    type(pair.first).objects.filter(pk=pair.first_id).update(contributor=mona)
    with pytest.raises(Http404):
        apart(mona, pair)


def join(family, unit_pk, pair, bob, mona):
    member = propose_member(proposer=bob, family_pk=family.pk, unit_pk=unit_pk, why="One layout.",
                            alike=pair.pk)
    return decide_member(moderator=mona, member_pk=member.pk, version=1, accepted=True,
                         reason="Looked at both.")


def test_a_pair_that_one_family_holds_is_no_candidate_any_more(pair, bob, mona):
    family = create_family(moderator=mona, alike=pair.pk, **TEXTS)
    first = join(family, pair.first_id, pair, bob, mona)
    assert candidates().get().family == family
    assert first.similarity == pytest.approx(pair.score)
    join(family, pair.second_id, pair, bob, mona)
    assert not candidates().exists()


def test_the_likeness_of_another_pair_is_not_taken(pair, alice, bob, mona):
    other = board(alice, "Other", core="EE19")
    family = create_family(moderator=mona, **TEXTS)
    member = propose_member(proposer=bob, family_pk=family.pk, unit_pk=other.pk, why="One layout.",
                            alike=pair.pk)
    assert member.similarity is None
