"""Files that a crash left behind go after a day; what a row names stays, or is missed."""
import os
from datetime import timedelta
from shutil import rmtree

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import storages
from django.utils import timezone

from teardowns.models import PhotoUpload, Recording, RecordingUpload
from teardowns.services import read_recording
from teardowns.services.lay_out_recording import read_anew
from teardowns.services.open_correction import open_correction
from teardowns.services.read_recording import read_on
from teardowns.services.receive_recording import About
from teardowns.services.receive_recording_upload import begin_recording_upload
from teardowns.services.receive_upload import append_block, begin_upload, path_of
from teardowns.services.sweep_files import sweep_files
from tests.published import published
from tests.recordings import again

pytestmark = pytest.mark.django_db


def age(path, days=2):
    then = (timezone.now() - timedelta(days=days)).timestamp()
    os.utime(path, (then, then))


def test_what_rows_name_stays(photo, tmp_path):
    for path in (*(tmp_path / "originals").rglob("*"), *(tmp_path / "pictures").rglob("*")):
        age(path)
    swept = sweep_files()
    assert (swept.removed, swept.missing) == (0, ())


def test_the_files_of_a_recording_stay(recording, tmp_path):
    for path in (*(tmp_path / "originals").rglob("*"), *(tmp_path / "channels").rglob("*")):
        age(path)
    swept = sweep_files()
    assert (swept.removed, swept.missing) == (0, ())


def test_channels_that_a_version_was_published_with_stay(recording, tmp_path, alice):
    kept = recording.channels
    published(recording.unit)
    open_correction(author=alice, unit_pk=recording.unit_id, reason="The layout was wrong.")
    recording = again(recording)
    read_anew(author=alice, recording=recording, version=recording.version)
    for path in (tmp_path / "channels").rglob("*"):
        age(path)
    sweep_files()
    assert again(recording).channels == "" and [*(tmp_path / "channels" / kept).iterdir()]


def test_missing_channels_are_named(recording, tmp_path):
    rmtree(tmp_path / "channels")
    assert sweep_files().missing == (f"channels: {recording.channels}",)


def test_a_digest_that_came_with_a_document_misses_no_file(alice, unit):
    Recording.objects.create(unit=unit, key="sweep", kind="load_sweep", sha256="ab" * 32,
                             author=alice, byte_size=9)
    assert sweep_files().missing == ()


def test_a_folder_in_which_nobody_reads_any_more_goes(laid_out, settings, monkeypatch):
    monkeypatch.setattr(read_recording, "SLICE", 800)
    read_on(laid_out)
    sweep_files()
    left = [*settings.INCOMING.iterdir()]
    assert [path.name for path in left if path.is_dir()] == [f"read-{laid_out.reading.hex}"]
    for path in left:
        age(path)
    sweep_files()
    assert not list(settings.INCOMING.iterdir())
    assert read_on(laid_out).rows < 241            # from the first byte


@pytest.mark.parametrize("alias", ["originals", "pictures", "channels"])
def test_a_file_that_no_row_names_goes_once_it_is_old(db, alias):
    name = storages[alias].save("ab/orphan", ContentFile(b"x"))
    assert sweep_files().removed == 0
    age(storages[alias].path(name))
    assert sweep_files().removed == 1 and not storages[alias].exists(name)


def test_a_missing_file_is_named_and_its_row_left(photo):
    name = photo.derivatives.first().path
    storages["pictures"].delete(name)
    assert sweep_files().missing == (f"pictures: {name}",)
    assert photo.derivatives.filter(path=name).exists()


def test_a_log_that_nobody_went_on_sending_goes_with_its_file(alice, unit):
    upload = append_block(contributor=alice, offset=0, block=b"xx", upload=begin_recording_upload(
        contributor=alice, unit_pk=unit.pk, name="a.csv", size=9, about=About("thermal")))
    sweep_files()
    assert path_of(upload).exists()
    RecordingUpload.objects.update(changed_at=timezone.now() - timedelta(days=3))
    age(path_of(upload), 3)
    assert sweep_files().removed == 1 and not RecordingUpload.objects.exists()


def test_an_upload_that_nobody_went_on_with_goes_with_its_file(alice, unit):
    upload = append_block(contributor=alice, offset=0, block=b"xx", upload=begin_upload(
        contributor=alice, unit_pk=unit.pk, name="a.jpg", size=9))
    sweep_files()
    assert path_of(upload).exists()
    PhotoUpload.objects.update(changed_at=timezone.now() - timedelta(days=3))
    age(path_of(upload), 3)
    assert sweep_files().removed == 1 and not PhotoUpload.objects.exists()
