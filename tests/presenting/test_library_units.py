"""Units of the library as their versions have them, with the first picture that is public."""
import pytest

from teardowns.models import Photo, Unit
from teardowns.presenting.library_units import library_units
from tests.published import published

pytestmark = pytest.mark.django_db


def test_what_was_not_recorded_is_said_not_guessed(unit):
    published(unit)
    shown, = library_units(Unit.objects.published())
    assert (shown.maker, shown.model) == ("not stated", "not stated")
    assert (shown.claimed, shown.capability, shown.picture) == ("no power claim", "unknown", None)


def test_the_first_picture_stands_with_its_words(unit, photo, django_assert_num_queries):
    Photo.objects.update(alt="Solder side with a slot")
    published(unit)
    with django_assert_num_queries(3):
        shown, = library_units(Unit.objects.published())
    assert shown.picture["alt"] == "Solder side with a slot" and shown.remark == ""


def test_a_photo_that_came_after_the_version_is_not_shown(unit, photo):
    published(unit)
    Photo.objects.update(published_at=None)
    assert library_units(Unit.objects.published())[0].picture is None
