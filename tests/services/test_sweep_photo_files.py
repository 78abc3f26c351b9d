"""Files that a crash left behind go after a day; what a row names stays, or is missed."""
import os
from datetime import timedelta

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import storages
from django.utils import timezone

from teardowns.models import PhotoUpload
from teardowns.services.receive_upload import append_block, begin_upload, path_of
from teardowns.services.sweep_photo_files import sweep_photo_files

pytestmark = pytest.mark.django_db


def age(path, days=2):
    then = (timezone.now() - timedelta(days=days)).timestamp()
    os.utime(path, (then, then))


def test_what_rows_name_stays(photo, tmp_path):
    for path in (*(tmp_path / "originals").rglob("*"), *(tmp_path / "pictures").rglob("*")):
        age(path)
    swept = sweep_photo_files()
    assert (swept.removed, swept.missing) == (0, ())


@pytest.mark.parametrize("alias", ["originals", "pictures"])
def test_a_file_that_no_row_names_goes_once_it_is_old(db, alias):
    name = storages[alias].save("ab/orphan", ContentFile(b"x"))
    assert sweep_photo_files().removed == 0
    age(storages[alias].path(name))
    assert sweep_photo_files().removed == 1 and not storages[alias].exists(name)


def test_a_missing_file_is_named_and_its_row_left(photo):
    name = photo.derivatives.first().path
    storages["pictures"].delete(name)
    assert sweep_photo_files().missing == (f"pictures: {name}",)
    assert photo.derivatives.filter(path=name).exists()


def test_an_upload_that_nobody_went_on_with_goes_with_its_file(alice, unit):
    upload = append_block(contributor=alice, offset=0, block=b"xx", upload=begin_upload(
        contributor=alice, unit_pk=unit.pk, name="a.jpg", size=9))
    sweep_photo_files()
    assert path_of(upload).exists()
    PhotoUpload.objects.update(changed_at=timezone.now() - timedelta(days=3))
    age(path_of(upload), 3)
    assert sweep_photo_files().removed == 1 and not PhotoUpload.objects.exists()
