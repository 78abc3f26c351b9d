"""One row a person, never who did it, never twice."""
import pytest
from django.db import IntegrityError

from teardowns.models import Notice, NoticeKind
from teardowns.services.notify import notify, read_notices

pytestmark = pytest.mark.django_db


def told():
    return sorted(Notice.objects.values_list("person__username", flat=True))


def test_each_person_is_told_once_and_the_actor_is_not(alice, bob, mona, unit):
    notify([alice, bob.pk, bob, None, mona], "published", actor=mona, unit=unit)
    assert told() == ["alice", "bob"]


def test_the_same_words_are_not_told_twice_while_they_are_unread(alice, unit):
    for _ in range(3):
        notify([alice], "sent_back", unit=unit, words="The mass is missing.")
    assert told() == ["alice"]
    notify([alice], "sent_back", unit=unit, words="The fuse is missing.")
    assert told() == ["alice", "alice"]


def test_they_are_told_again_once_they_were_read(alice, unit):
    notify([alice], "sent_back", unit=unit)
    read_notices(person=alice)
    notify([alice], "sent_back", unit=unit)
    assert told() == ["alice", "alice"]


def test_a_named_event_is_told_once_for_good(alice, unit):
    notify([alice], "version", unit=unit, event="publication/3")
    read_notices(person=alice)
    notify([alice], "version", unit=unit, event="publication/3", words="in other words")
    assert told() == ["alice"]


def test_the_database_itself_refuses_a_second_row_of_one_event(alice, unit):
    notify([alice], "version", unit=unit, event="publication/3")
    row = Notice.objects.get()
    row.pk = None
    with pytest.raises(IntegrityError):
        row.save(force_insert=True)


def test_an_unknown_kind_is_refused(alice):
    with pytest.raises(ValueError, match="rumour"):
        notify([alice], "rumour")


def test_reading_marks_ones_own_notices_up_to_the_newest_that_was_seen(alice, bob, unit):
    notify([alice, bob], "published", unit=unit, event="one")
    seen = Notice.objects.latest("pk").pk
    notify([alice], "version", unit=unit, event="two")
    assert read_notices(person=alice, up_to=seen) == 1
    assert Notice.objects.unread().filter(person=alice).get().kind == NoticeKind.VERSION
    assert Notice.objects.unread().filter(person=bob).exists()


def test_nobody_marks_anothers_notice(alice, bob, unit):
    notify([alice], "published", unit=unit)
    assert read_notices(person=bob, pk=Notice.objects.get().pk) == 0
