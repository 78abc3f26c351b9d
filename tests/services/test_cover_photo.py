"""What is covered is gone from every picture that is served; the original is locked away."""
import pytest
from django.core.files.storage import storages
from django.http import Http404
from PIL import Image

from teardowns.imaging.refusals import Refused
from teardowns.services import cover_photo as covering
from teardowns.services.cover_photo import cover_photo
from teardowns.services.photo_files import original_name
from tests.published import published

pytestmark = pytest.mark.django_db
RED_FIELD = (0.0, 0.0, 101.0, 76.0)


def shown(photo, width=320):
    with storages["pictures"].open(photo.derivatives.get(width=width).path) as file:
        return Image.open(file).convert("RGB")


def reds(image):
    return sum(count for count, (r, g, b) in image.getcolors(1 << 20) if r > g + 60 and r > b + 60)


def test_the_region_is_burnt_out_of_every_width(alice, photo):
    assert reds(shown(photo)) > 1000
    cover_photo(author=alice, photo=photo, box=RED_FIELD, reason="label")
    assert [reds(shown(photo, row.width)) for row in photo.derivatives.all()] == [0, 0]


def test_old_pictures_are_purged_and_the_original_is_not_touched(
        alice, photo, django_capture_on_commit_callbacks):
    old = list(photo.derivatives.values_list("path", flat=True))
    with django_capture_on_commit_callbacks(execute=True):
        cover_photo(author=alice, photo=photo, box=RED_FIELD, reason="label")
    assert not any(storages["pictures"].exists(name) for name in old)
    with storages["originals"].open(original_name(photo.sha256)) as file:
        assert reds(Image.open(file).convert("RGB")) > 1000


def test_a_second_cover_keeps_the_first(alice, photo):
    cover_photo(author=alice, photo=photo, box=RED_FIELD, reason="label")
    cover_photo(author=alice, photo=photo, box=(200.0, 200.0, 50.0, 50.0), reason="face")
    assert reds(shown(photo)) == 0 and photo.covers.count() == 2


def test_a_moderator_covers_on_a_published_unit_and_its_contributor_does_not(alice, mona, photo):
    published(photo.unit)
    with pytest.raises(Http404):
        cover_photo(author=alice, photo=photo, box=RED_FIELD, reason="label")
    assert cover_photo(author=mona, photo=photo, box=RED_FIELD, reason="label").author == mona


def test_two_who_cover_at_once_leave_both_regions_covered(alice, photo, monkeypatch):
    real, others = covering.derive, iter([RED_FIELD])

    def slow(original, folder, boxes):
        made = real(original, folder, boxes)
        for box in others:
            cover_photo(author=alice, photo=photo, box=box, reason="label")
        return made

    monkeypatch.setattr(covering, "derive", slow)
    cover_photo(author=alice, photo=photo, box=(200.0, 200.0, 50.0, 50.0), reason="face")
    assert photo.covers.count() == 2 and reds(shown(photo)) == 0


def test_a_missing_original_is_said_and_nothing_is_changed(alice, photo):
    storages["originals"].delete(original_name(photo.sha256))
    with pytest.raises(Refused, match="missing"):
        cover_photo(author=alice, photo=photo, box=RED_FIELD, reason="label")
    assert not photo.covers.exists() and reds(shown(photo)) > 1000
