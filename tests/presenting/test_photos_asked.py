import pytest

from teardowns.models import PhotoPrivacyCheck
from teardowns.presenting.photos_asked import photos_asked

pytestmark = pytest.mark.django_db


def test_a_photo_comes_with_its_picture_and_where_to_cover_it(
        unit, photo, alice, django_assert_num_queries):
    with django_assert_num_queries(1):
        [found] = photos_asked(unit, alice)
    assert found["photo"] == photo and found["picture"]["srcset"]
    assert found["full"].endswith("/400.webp")          # the widest that a 400 px original has
    assert found["cover"] == f"/units/{unit.pk}/photos/{photo.key}/cover/"


def test_own_ticks_and_those_of_others_are_told_apart(unit, photo, alice, bob):
    PhotoPrivacyCheck.objects.create(photo=photo, photo_version=photo.version, author=bob)
    [found] = photos_asked(unit, alice)
    assert (found["photo"].is_checked, found["is_vouched"]) == (False, True)
    PhotoPrivacyCheck.objects.create(photo=photo, photo_version=photo.version, author=alice)
    assert photos_asked(unit, alice)[0]["photo"].is_checked


def test_a_tick_of_an_earlier_version_is_none(unit, photo, alice):
    PhotoPrivacyCheck.objects.create(photo=photo, photo_version=photo.version + 1, author=alice)
    assert not photos_asked(unit, alice)[0]["photo"].is_checked
