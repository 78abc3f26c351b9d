"""Stage, caption and words of a photo; taking it down keeps it."""
import pytest

from core.audit.models import Entry
from teardowns.models import Correction, Photo
from teardowns.services.cite_part import SaveRefused
from teardowns.services.describe_photo import StalePhoto, describe_photo, take_down_photo
from tests.published import published

pytestmark = pytest.mark.django_db
WORDS = {"stage": "plate", "caption": "The plate", "alt": "A grey plate with three lines"}


def test_what_it_shows_is_said_with_its_author(alice, photo):
    assert describe_photo(author=alice, photo=photo, version=1, **WORDS)
    photo.refresh_from_db()
    assert (photo.alt, photo.version) == (WORDS["alt"], 2)
    assert photo.history.first().history_user == alice


def test_the_same_words_change_nothing(alice, photo):
    describe_photo(author=alice, photo=photo, version=1, **WORDS)
    assert not describe_photo(author=alice, photo=photo, version=1, **WORDS)


def test_words_of_somebody_else_are_not_written_over(alice, photo):
    describe_photo(author=alice, photo=photo, version=1, **WORDS)
    with pytest.raises(StalePhoto):
        describe_photo(author=alice, photo=photo, version=1, **WORDS | {"caption": "Mine"})
    assert Photo.objects.get().caption == "The plate"


def test_a_photo_taken_down_is_shown_to_nobody_and_lost_to_nobody(alice, photo):
    take_down_photo(author=alice, photo=photo, reason="a face in it")
    assert not Photo.objects.shown().exists()
    assert Photo.objects.get().take_down_reason == "a face in it"
    assert Entry.objects.filter(action="photo_taken_down").get().reason


def test_a_correction_takes_down_no_published_photo_of_somebody_else(alice, bob, photo, unit):
    Correction.objects.create(unit=unit, author=bob, base=published(unit), reason="Blurred")
    photo.refresh_from_db()
    with pytest.raises(SaveRefused, match="report it"):
        take_down_photo(author=bob, photo=photo, reason="I do not like it")
    photo.refresh_from_db()
    assert photo.taken_down_at is None
