import dataclasses

import pytest
from PIL import Image

from teardowns.imaging import derive as subject
from teardowns.imaging.derive import derive
from teardowns.imaging.refusals import Refused
from teardowns.imaging.walk import walk
from tests.hostile.building import EXIF_INTO, control, exif, saved


@pytest.fixture
def original(tmp_path):
    def written(data):
        path = tmp_path / "original"
        path.write_bytes(data)
        return path
    return written


@pytest.fixture
def folder(tmp_path):
    place = tmp_path / "derived"
    place.mkdir()
    return place


def test_it_writes_every_smaller_width_and_the_picture_itself(original, folder):
    derived = derive(original(saved("JPEG", control((1500, 900)))), folder)
    assert [(f.width, f.height) for f in derived.files] == [
        (320, 192), (640, 384), (1500, 900)]
    assert {f.path for f in derived.files} == set(folder.iterdir())


def test_files_are_webp_of_the_size_they_say(original, folder):
    for file in derive(original(saved("PNG", control((700, 500)))), folder).files:
        with Image.open(file.path) as picture:
            assert (picture.format, picture.size) == ("WEBP", (file.width, file.height))
        assert file.byte_size == file.path.stat().st_size
        assert file.media_type == "image/webp"


def test_sizes_are_those_of_the_picture_as_shown(original, folder):
    derived = derive(original(EXIF_INTO["jpeg"](exif((0x112, 6)))), folder)
    assert (derived.walk.width, derived.walk.height) == (64, 96)
    assert [(f.width, f.height) for f in derived.files] == [(64, 96)]


def test_its_own_output_holds_nothing_to_remove(original, folder):
    derived = derive(original(EXIF_INTO["jpeg"](exif((0x10F, b"maker")))), folder)
    with open(derived.files[0].path, "rb") as file:
        assert walk(file, derived.files[0].byte_size).removed == ()


def test_a_refused_picture_leaves_the_folder_as_it_was(original, folder):
    (folder / "earlier").write_bytes(b"kept")
    with pytest.raises(Refused):
        derive(original(saved("JPEG")[:-40]), folder)
    assert [path.name for path in folder.iterdir()] == ["earlier"]


def test_a_derivative_that_is_not_as_ordered_is_refused_and_removed(original, folder, monkeypatch):
    real = subject._run

    def shortened(*arguments):
        said = real(*arguments)
        return {**said, "lengths": [length - 1 for length in said["lengths"]]}

    monkeypatch.setattr(subject, "_run", shortened)
    with pytest.raises(Refused) as refused:
        derive(original(saved("PNG", control((700, 500)))), folder)
    assert refused.value.code == "decode_failed"
    assert not list(folder.iterdir())


def test_a_child_that_takes_too_long_is_stopped(original, folder, monkeypatch):
    monkeypatch.setattr(subject, "WALL_SECONDS", 0.2)
    monkeypatch.setattr(subject, "START", "import time; time.sleep(60)")
    with pytest.raises(Refused) as refused:
        derive(original(saved("PNG")), folder)
    assert refused.value.code == "decode_timeout"


@pytest.mark.parametrize("start, code", [
    ("import os; os.abort()", "decode_failed"),
    ("raise SystemExit(3)", "decode_failed"),
    ("import os; os.write(2, b'no json')", "decode_failed"),
    ("import os, signal; os.kill(os.getpid(), signal.SIGXCPU)", "decode_timeout"),
])
def test_a_child_that_ends_badly_is_a_refusal(original, folder, monkeypatch, start, code):
    monkeypatch.setattr(subject, "START", start)
    with pytest.raises(Refused) as refused:
        derive(original(saved("PNG")), folder)
    assert refused.value.code == code


def test_a_full_disk_is_no_fault_of_the_picture(original):
    path = original(saved("PNG"))
    with open(path, "rb") as file, open("/dev/full", "wb") as full:
        job = subject._job(walk(file, path.stat().st_size), ())
        with pytest.raises(OSError, match="No space left"):
            subject._run(file, full, job)


def test_results_cannot_be_changed(original, folder):
    derived = derive(original(saved("PNG")), folder)
    with pytest.raises(dataclasses.FrozenInstanceError):
        derived.perceptual_hash = 0
