"""A region that was burnt out is burnt out of the photo that an old backup brought back."""
import pytest

from teardowns.models import PhotoCover
from teardowns.services.cover_photo import cover_photo
from teardowns.services.repeat_covers import burn_out_again, covered_regions

pytestmark = pytest.mark.django_db


def test_a_region_is_burnt_out_again_once(alice, photo, django_capture_on_commit_callbacks):
    cover_photo(author=alice, photo=photo, box=(10.0, 10.0, 40.0, 30.0), reason="A name.")
    erased, = covered_regions()
    assert "name" not in str(erased)
    before = set(photo.derivatives.values_list("path", flat=True))
    assert burn_out_again(erased) is False
    PhotoCover.objects.all().delete()               # as the backup has it
    with django_capture_on_commit_callbacks(execute=True):
        assert burn_out_again(erased) is True
    assert photo.covers.get().box == [10.0, 10.0, 40.0, 30.0]
    assert not before & set(photo.derivatives.values_list("path", flat=True))


def test_a_photo_that_is_not_there_needs_none():
    assert burn_out_again({"photo": 0, "box": [0, 0, 1, 1], "author": 0}) is False
