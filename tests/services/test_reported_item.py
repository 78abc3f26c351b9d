"""What a report names is found, whoever asks only what they can see."""
import pytest
from django.contrib.auth.models import AnonymousUser
from django.http import Http404
from django.utils import timezone

from teardowns.models import Comment, Part, Unit
from teardowns.services.reported_item import item_about, item_seen_by
from tests.published import published

pytestmark = pytest.mark.django_db


def test_a_record_a_row_and_a_photo_are_named(photo, alice):
    unit = photo.unit
    assert item_about(f"unit/{unit.pk}").author == alice
    row = item_about(f"unit/{unit.pk}/component/bulk-1")
    assert row.title.endswith(": component/bulk-1") and row.about.endswith("/component/bulk-1")
    assert item_about(f"photo/{photo.pk}").address == photo.get_absolute_url()


def test_a_comment_may_be_about_a_part(alice, mona):
    part = Part.objects.create(marking="ZX-1", curator=mona)
    comment = Comment.objects.create(part=part, author=alice, text="Hm.", written_at=timezone.now())
    item = item_about(f"comment/{comment.pk}")
    assert item.unit is None and item.author == alice


def test_it_is_seen_by_whoever_sees_its_record(photo, bob):
    with pytest.raises(Http404):
        item_seen_by(bob, f"photo/{photo.pk}")
    published(photo.unit)
    assert item_seen_by(AnonymousUser(), f"photo/{photo.pk}").pk == photo.pk


@pytest.mark.parametrize("about", [
    "", "unit", "unit/", "unit/0", "unit/-1", "unit/1x", "unit/٣", "photo/1/x", "user/1",
    "unit/99999999999999999999", "comment/5", "reply/5", "../1"])
def test_anything_else_is_not_found(db, about):
    with pytest.raises(Http404):
        item_about(about)
    assert not Unit.objects.exists()
