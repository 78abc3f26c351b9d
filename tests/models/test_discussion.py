"""What the database itself refuses of comments, watches and replies."""
import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from teardowns.models import Comment, MakerAccount, Part, Reply, ReplyVersion, Watch

pytestmark = pytest.mark.django_db


def refuses(make):
    with pytest.raises(IntegrityError), transaction.atomic():
        make()


def test_a_comment_is_about_one_thing_and_says_something(unit, alice):
    part = Part.objects.create(marking="QX123", curator=alice)
    plain = {"author": alice, "text": "x", "written_at": timezone.now()}
    for about in ({}, {"unit": unit, "part": part}, {"part": part, "ref": "measurement/mass"},
                  {"unit": unit, "text": ""}, {"unit": unit, "state": "burnt"},
                  {"unit": unit, "state": "removed"}):
        refuses(lambda about=about: Comment.objects.create(**plain | about))
    assert Comment.objects.create(unit=unit, **plain).thing == unit


def test_a_thing_is_watched_once(unit, alice, bob):
    Watch.objects.create(person=bob, unit=unit)
    refuses(lambda: Watch.objects.create(person=bob, unit=unit))
    refuses(lambda: Watch.objects.create(person=bob))
    assert Watch.objects.create(person=alice, unit=unit).thing == unit


def test_one_version_of_a_reply_waits_at_a_time(unit, bob, mona):
    reply = Reply.objects.create(unit=unit, author_name="Veltrice Ltd", entered_by=bob)
    said = {"reply": reply, "text": "x", "received_at": timezone.now()}
    ReplyVersion.objects.create(number=1, **said)
    for more in ({"number": 2}, {"number": 1, "state": "verified", "decided_by": mona},
                 {"number": 2, "state": "verified"},
                 {"number": 2, "state": "declined", "decided_by": mona}):
        refuses(lambda more=more: ReplyVersion.objects.create(**said | more))


def test_nobody_verifies_for_whom_they_speak_themselves(unit, bob, mona):
    plain = {"person": bob, "name": "Veltrice Ltd", "checked_how": "x",
             "verified_at": timezone.now(), "verified_by": mona}
    for more in ({}, {"unit": unit, "maker": "Veltrice"}, {"unit": unit, "verified_by": bob},
                 {"unit": unit, "checked_how": ""}):
        refuses(lambda more=more: MakerAccount.objects.create(**plain | more))
    assert MakerAccount.objects.create(unit=unit, **plain)
