"""Who writes, reads, replies and moderates what is said of a unit."""
import pytest
from django.utils import timezone

from teardowns import access
from teardowns.models import Comment, CommentState, Reply, Status, Unit
from teardowns.models.replies import ReplyVersion
from tests.access.stages import at, held_by, who
from tests.library import listed

pytestmark = pytest.mark.django_db


@pytest.fixture
def people(people, ada, rolf, unit):
    """Rita reviews the unit, Rolf does not; Ada administers."""
    held_by(people["rita"], unit)
    return people | {"ada": ada, "rolf": rolf}


def test_whoever_has_to_do_with_content_writes(people):
    assert who(people, access.may_write) == {"alice", "bob", "rita", "rolf", "mona"}


def test_whoever_is_suspended_or_not_confirmed_writes_nothing(people, bob, rolf, mona):
    bob.suspended_at = timezone.now()
    rolf.email_verified_at = None
    assert who(people, access.may_write) == {"alice", "rita", "mona"}
    assert who(people, access.may_reply) == {"alice", "rita"}
    part = listed(mona)
    assert who(people, lambda one: access.may_comment(one, part)) == {"alice", "rita", "mona"}


def test_moderators_do_not_reply_for_a_maker_for_they_decide_on_replies(people):
    assert who(people, access.may_reply) == {"alice", "bob", "rita", "rolf"}


@pytest.mark.parametrize("status, written_by", [
    (Status.DRAFT, set()),
    (Status.SUBMITTED, {"alice", "rita", "mona"}),
    (Status.SENT_BACK, {"alice", "rita", "mona"}),
    (Status.DECLINED, set()),
    (Status.PUBLISHED, {"alice", "bob", "rita", "rolf", "mona"})])
def test_of_a_unit_that_is_not_public_those_at_work_on_it_talk(people, unit, status, written_by):
    at(unit, status)
    assert who(people, lambda one: access.may_comment(one, unit)) == written_by


def test_what_was_said_inside_is_read_by_those_at_work_on_it(people, unit):
    assert who(people, lambda one: access.sees_internal(one, unit)) == {"alice", "rita", "mona"}
    unit.quarantined_at = timezone.now()
    assert who(people, lambda one: access.sees_internal(one, unit)) == {"alice", "mona"}


def say(unit, author, text, state=CommentState.SHOWN, inside=False):
    return Comment.objects.create(unit=unit, author=author, text=text, state=state,
                                  is_internal=inside, written_at=timezone.now())


@pytest.fixture
def said(unit, bob):
    """Of Bob: one for everybody, one that waits, one from before the unit was public, one both."""
    say(unit, bob, "plain")
    say(unit, bob, "held", CommentState.HELD)
    say(unit, bob, "inside", inside=True)
    say(unit, bob, "both", CommentState.HELD, inside=True)


@pytest.mark.parametrize("name, read", [
    ("nobody", {"plain"}),
    ("rolf", {"plain"}),
    ("ada", {"plain"}),
    ("alice", {"plain", "inside"}),
    ("rita", {"plain", "inside"}),
    ("bob", {"plain", "held", "inside", "both"}),
    ("mona", {"plain", "held", "inside", "both"})])
def test_comments_that_wait_or_were_said_inside_are_not_for_everybody(people, unit, said, name,
                                                                      read):
    seen = access.comments_seen_by(people[name], unit)
    assert {one.text for one in seen} == read


def test_a_comment_is_changed_by_its_author_and_moderated_by_a_moderator(people, unit, bob):
    comment = say(unit, bob, "plain")
    assert who(people, lambda one: access.comment_of_own(one, comment.pk)) == {"bob"}
    assert who(people, lambda one: access.comment_to_moderate(one, comment.pk)) == {"mona"}


def test_nobody_moderates_their_own_comment(people, unit, mona):
    comment = say(unit, mona, "plain")
    assert who(people, lambda one: access.comment_to_moderate(one, comment.pk)) == set()


def stated(unit, person):
    reply = Reply.objects.create(unit=unit, author_name="Veltrice Ltd", entered_by=person)
    return ReplyVersion.objects.create(reply=reply, number=1, text="We changed the fuse.",
                                       received_at=timezone.now())


def decides_reply(people, version):
    return who(people, lambda one: access.reply_version_to_moderate(
        one, version.pk, ReplyVersion.objects.all()))


def test_a_reply_is_decided_by_a_moderator_with_no_part_in_it(people, unit, bob, milo, mona):
    people["milo"] = milo
    assert decides_reply(people, stated(unit, bob)) == {"mona", "milo"}
    assert decides_reply(people, stated(unit, mona)) == {"milo"}


def test_a_reply_to_their_own_record_is_not_for_a_moderator(people, bob, milo, mona):
    people["milo"] = milo
    own = Unit.objects.create(contributor=mona, title="Veltrice VQ-20")
    assert decides_reply(people, stated(own, bob)) == {"milo"}


def test_a_reply_is_its_authors_at_its_own_record(people, unit, bob, alice):
    reply = stated(unit, bob).reply
    other = Unit.objects.create(contributor=alice, title="Veltrice VQ-20")
    own = {place.title: who(people, lambda one, place=place: access.reply_of_own(
        one, place.pk, reply.pk, Reply.objects.all())) for place in (unit, other)}
    assert own == {unit.title: {"bob"}, other.title: set()}
