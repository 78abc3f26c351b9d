"""Originals stay byte for byte; what is shown carries pixels and nothing else."""
from hashlib import sha256

import pytest
from django.core.files.storage import storages
from django.http import Http404
from PIL import Image

from core.audit.models import Entry
from teardowns.models import Photo, PhotoDerivative, Status
from teardowns.services.describe_photo import take_down_photo
from teardowns.services.photo_files import original_name
from teardowns.services.receive_photo import PhotoRefused, receive_photo, shown_name
from tests.imaging.heic_files import heic, readable
from tests.photographs import CANARY, damaged, photograph

pytestmark = pytest.mark.django_db


def receive(alice, unit, path, stage="opened"):
    return receive_photo(contributor=alice, unit_pk=unit.pk, path=path, name=path.name, stage=stage)


def test_the_original_is_kept_byte_for_byte_under_its_digest(alice, unit, tmp_path):
    path = photograph(tmp_path)
    photo = receive(alice, unit, path).photo
    with storages["originals"].open(original_name(photo.sha256)) as kept:
        assert kept.read() == path.read_bytes()
    assert (photo.byte_size, photo.media_type) == (path.stat().st_size, "image/jpeg")


def test_what_is_shown_has_no_metadata_and_the_contributor_is_told(alice, unit, tmp_path):
    photo = receive(alice, unit, photograph(tmp_path)).photo
    for row in photo.derivatives.all():
        with storages["pictures"].open(row.path) as file:
            content = file.read()
            assert CANARY.encode() not in content
            assert not Image.open(file).getexif()
    assert any("position" in what.lower() for what in photo.stripped)


def test_a_turned_picture_is_turned_before_its_tag_is_dropped(alice, unit, tmp_path):
    # Orientation 6: the camera was turned, row 0 of the file is the right side of the picture.
    photo = receive(alice, unit, photograph(tmp_path, turned=6)).photo
    assert (photo.width, photo.height) == (300, 400)
    with storages["pictures"].open(photo.derivatives.get(width=300).path) as file:
        shown = Image.open(file).convert("RGB")
    assert shown.getpixel((290, 10))[1] < 100 < shown.getpixel((10, 10))[1]


@readable
def test_a_heic_is_kept_as_it_came_and_shown_as_webp(alice, unit, tmp_path):
    path = tmp_path / "phone.heic"
    path.write_bytes(heic())
    photo = receive(alice, unit, path).photo
    assert (photo.media_type, photo.width, photo.height) == ("image/heic", 96, 64)
    with storages["originals"].open(original_name(photo.sha256)) as kept:
        assert kept.read() == path.read_bytes()
    assert set(photo.derivatives.values_list("media_type", flat=True)) == {"image/webp"}


def test_the_same_file_twice_is_one_photo(alice, unit, tmp_path):
    path = photograph(tmp_path)
    first, again = receive(alice, unit, path), receive(alice, unit, path)
    assert first.is_new and not again.is_new and first.photo == again.photo


def test_a_damaged_file_is_refused_by_name_and_leaves_nothing(alice, unit, tmp_path, settings):
    with pytest.raises(PhotoRefused, match="damaged.jpg: ") as refused:
        receive(alice, unit, damaged(tmp_path))
    assert refused.value.message
    assert not Photo.objects.exists() and not PhotoDerivative.objects.exists()
    left = [tmp_path / "originals", tmp_path / "pictures", settings.INCOMING]
    assert not [path for place in left for path in place.rglob("*") if path.is_file()]


def test_keys_are_counted_by_stage_and_receiving_is_logged(alice, unit, tmp_path):
    keys = [receive(alice, unit, photograph(tmp_path, f"{colour}.png", colour=colour),
                    "solder_side").photo.key for colour in ("blue", "green")]
    assert keys == ["solder-side-1", "solder-side-2"]
    assert Entry.objects.filter(action="photo_received", actor=alice).count() == 2


def test_a_photo_that_was_taken_down_comes_back_when_it_is_sent_again(alice, unit, tmp_path):
    path = photograph(tmp_path)
    photo = receive(alice, unit, path).photo
    take_down_photo(author=alice, photo=photo, reason="blurred")
    assert not unit.photos.shown().exists()
    receive(alice, unit, path)
    assert unit.photos.shown().get() == photo
    assert Entry.objects.get(action="photo_shown_again").unit == unit.pk


def test_a_photo_that_came_with_a_document_gets_its_file(alice, unit, tmp_path):
    path = photograph(tmp_path)
    row = Photo.objects.create(unit=unit, key="board-top", author=alice, caption="From a document",
                               sha256=sha256(path.read_bytes()).hexdigest())
    received = receive(alice, unit, path)
    assert received.is_new and received.photo.pk == row.pk
    row.refresh_from_db()
    assert (row.key, row.caption, row.width) == ("board-top", "From a document", 400)
    assert row.is_shown and row.derivatives.exists()


@pytest.mark.parametrize("status", [Status.SUBMITTED, Status.PUBLISHED])
def test_a_sheet_that_is_not_open_takes_no_photo(alice, unit, tmp_path, status):
    type(unit).objects.filter(pk=unit.pk).update(status=status)
    with pytest.raises(Http404):
        receive(alice, unit, photograph(tmp_path))


def test_nobody_sends_photos_to_somebody_elses_sheet(bob, unit, tmp_path):
    with pytest.raises(Http404):
        receive(bob, unit, photograph(tmp_path))


@pytest.mark.parametrize("name, shown", [
    ("../../etc/passwd", "passwd"), ("C:\\photos\\a.jpg", "a.jpg"), ("a\0\nb.jpg", "ab.jpg"),
    ("a\u202egpj.exe", "agpj.exe"), ("", "a file without a name"), ("x" * 300, "x" * 80)])
def test_a_shown_name_has_no_folder_and_no_sign_that_nobody_sees(name, shown):
    assert shown_name(name) == shown
