"""Marks: two people at once lose nothing, and every change has its author and its history."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.imaging.web_annotation import read
from teardowns.models import Annotation
from teardowns.services.annotate_photo import MarkRefused, StaleMark, put_mark, remove_mark

pytestmark = pytest.mark.django_db
BOX = ((10.0, 20.0), (110.0, 80.0))


def put(alice, photo, **more):
    return put_mark(**{"author": alice, "photo": photo, "shape": "box", "points": BOX,
                       "label": "C1", "shows": "component/bulk"} | more)


def test_a_mark_is_a_web_annotation_that_names_what_it_shows(alice, photo):
    mark = put(alice, photo)
    assert mark.body["type"] == "Annotation" and mark.body["target"]["source"]
    stored = read(mark.body)
    assert (stored.points, stored.label, stored.shows) == (BOX, "C1", "component/bulk")


def test_a_mark_that_was_seen_is_changed(alice, photo):
    mark = put(alice, photo)
    changed = put(alice, photo, key=mark.key, version=mark.version, label="C2")
    assert changed.pk == mark.pk and changed.version == mark.version + 1
    assert [read(each.body).label for each in mark.history.order_by("pk")] == ["C1", "C2"]


def test_a_mark_that_somebody_else_changed_meanwhile_is_left_alone(alice, photo):
    mark = put(alice, photo)
    put(alice, photo, key=mark.key, version=mark.version, label="theirs")
    with pytest.raises(StaleMark):
        put(alice, photo, key=mark.key, version=mark.version, label="mine")
    with pytest.raises(StaleMark):
        remove_mark(author=alice, photo=photo, key=mark.key, version=mark.version)
    assert read(Annotation.objects.get().body).label == "theirs"


def test_two_new_marks_never_share_a_name_nor_does_a_removed_one(alice, photo):
    first, second = put(alice, photo), put(alice, photo)
    remove_mark(author=alice, photo=photo, key=second.key, version=second.version)
    third = put(alice, photo)
    assert len({first.key, second.key, third.key}) == 3
    assert Annotation.history.filter(key=second.key, history_type="-").get().history_user == alice


def test_each_change_is_logged(alice, photo):
    mark = put(alice, photo)
    remove_mark(author=alice, photo=photo, key=mark.key, version=mark.version)
    actions = Entry.objects.of_unit(photo.unit).order_by("pk").values_list("action")
    assert [action for action, in actions][-2:] == ["mark_put", "mark_removed"]


def test_there_is_an_end_to_marks(alice, photo, monkeypatch):
    monkeypatch.setattr("teardowns.services.annotate_photo.MOST_MARKS", 1)
    put(alice, photo)
    with pytest.raises(MarkRefused, match="Remove one"):
        put(alice, photo)


def test_nobody_else_marks_it(bob, photo):
    with pytest.raises(Http404):
        put(bob, photo)
