"""Files of a form on their way in: what is too large goes at once, the others arrive whole."""
from pathlib import Path

import pytest
from django.core.files.uploadhandler import SkipFile

from teardowns.views import limited_upload as subject
from teardowns.views.limited_upload import LimitedUpload


@pytest.fixture
def handler(monkeypatch):
    monkeypatch.setattr(subject, "MAX_BYTES", 10)
    return LimitedUpload()


def receive(handler, name, *chunks):
    """One file of a form in its chunks; the file that arrived."""
    handler.new_file("photos", name, "image/jpeg", None)
    for chunk in chunks:
        handler.receive_data_chunk(chunk, 0)
    return handler.file_complete(sum(map(len, chunks)))


def test_a_file_of_just_the_limit_arrives_whole_on_the_disk(handler):
    file = receive(handler, "a.jpg", b"12345", b"67890")
    assert Path(file.temporary_file_path()).read_bytes() == b"1234567890"
    assert handler.too_large == []


def test_one_byte_more_is_left_aside_and_named(handler):
    with pytest.raises(SkipFile):
        receive(handler, "b.jpg", b"12345", b"678901")
    assert handler.too_large == ["b.jpg"]


def test_nothing_stays_on_the_disk_of_what_is_left_aside(handler):
    handler.new_file("photos", "b.jpg", "image/jpeg", None)
    path = Path(handler.file.temporary_file_path())
    assert path.exists()
    with pytest.raises(SkipFile):
        handler.receive_data_chunk(b"12345678901", 0)
    assert not path.exists()


def test_the_next_file_counts_from_nothing(handler):
    with pytest.raises(SkipFile):
        receive(handler, "b.jpg", b"12345678901")
    assert receive(handler, "c.jpg", b"1234567890").size == 10
    assert handler.too_large == ["b.jpg"]


def test_a_file_without_a_byte_arrives_too(handler):
    assert receive(handler, "empty.jpg").size == 0
