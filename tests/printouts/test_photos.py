"""Photos on paper: with their marks, and only what may be shown now."""
import io

import pytest
from PIL import Image

from teardowns.imaging.web_annotation import written
from teardowns.models import Annotation, Photo, Publication
from teardowns.printouts.photos import in_groups, printed_photos
from teardowns.services.thaw import thaw
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def public(photo, unit):
    """A public unit with a marked photo."""
    Annotation.objects.create(
        photo=photo, key="m", author=photo.author,
        body=written("line", ((10.0, 10.0), (60.0, 40.0)), "the gap", "", "/picture"))
    published(unit)
    return unit


def shown(unit):
    publication = Publication.objects.get(unit=unit)
    publication.unit = unit
    return printed_photos(thaw(publication), unit, {})


def test_a_mark_lies_over_its_photo_and_its_words_beside_it(public):
    (photo,), _ = shown(public)
    assert photo["marks"] == ["the gap"]
    assert "M10 10L60 40" in photo["drawing"]


def test_the_picture_is_made_anew_and_says_nothing_but_pixels(public):
    (photo,), files = shown(public)
    image = Image.open(io.BytesIO(files[photo["file"]]()))
    assert image.format == "JPEG" and not image.getexif()


def test_one_that_was_taken_down_is_not_printed(public):
    Photo.objects.update(taken_down_at="2026-01-01T00:00:00Z")
    assert shown(public) == ([], {})


def test_a_digest_can_be_set_in_a_narrow_column():
    assert in_groups("ab" * 32).split() == ["ab" * 8] * 4
