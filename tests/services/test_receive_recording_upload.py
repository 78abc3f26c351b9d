"""A log in blocks: as photos arrive, and with what the contributor said of it."""
import pytest

from teardowns.logs.limits import MOST_BYTES
from teardowns.models import Port, Recording, RecordingUpload
from teardowns.services.receive_recording import About, RecordingRefused
from teardowns.services.receive_recording_upload import (
    begin_recording_upload,
    finish_recording_upload,
)
from teardowns.services.receive_upload import WrongOffset, append_block, path_of
from tests.recordings import thermal_log

pytestmark = pytest.mark.django_db


def begin(alice, unit, path, **more):
    return begin_recording_upload(
        contributor=alice, unit_pk=unit.pk, name=path.name, size=path.stat().st_size,
        about=About("thermal", port="c1", instrument="Logger 8"), **more)


def send(alice, upload, content, size=1000):
    for at in range(upload.received, len(content), size):
        upload = append_block(contributor=alice, upload=upload, offset=at,
                              block=content[at:at + size])
    return upload


def test_blocks_make_the_recording_whole(alice, unit, tmp_path):
    port = Port.objects.create(unit=unit, author=alice, key="c1", label="C1")
    path = thermal_log(tmp_path)
    upload = send(alice, begin(alice, unit, path), path.read_bytes())
    recording = finish_recording_upload(contributor=alice, upload=upload)
    assert (recording.byte_size, recording.port) == (path.stat().st_size, port)
    assert recording.instrument == "Logger 8" and not path_of(upload).exists()


def test_asking_again_for_the_end_makes_no_second_recording(alice, unit, tmp_path):
    path = thermal_log(tmp_path)
    upload = send(alice, begin(alice, unit, path), path.read_bytes())
    first = finish_recording_upload(contributor=alice, upload=upload)
    upload.refresh_from_db()
    assert finish_recording_upload(contributor=alice, upload=upload) == first
    assert Recording.objects.count() == 1


def test_a_block_that_does_not_follow_is_told_where_to_begin(alice, unit, tmp_path):
    path = thermal_log(tmp_path)
    upload = send(alice, begin(alice, unit, path), path.read_bytes()[:1000])
    with pytest.raises(WrongOffset) as wrong:
        append_block(contributor=alice, upload=upload, offset=999, block=b"x")
    assert wrong.value.expected == 1000


def test_a_file_that_is_no_log_is_refused_for_good(alice, unit, tmp_path):
    path = tmp_path / "odd.csv"
    path.write_bytes(bytes(range(256)) * 10)
    upload = send(alice, begin(alice, unit, path), path.read_bytes())
    for _ in range(2):
        with pytest.raises(RecordingRefused):
            finish_recording_upload(contributor=alice, upload=upload)
        upload.refresh_from_db()
    assert upload.refusal and not path_of(upload).exists()


def test_a_file_that_the_unit_has_needs_no_sending(alice, unit, tmp_path):
    path = thermal_log(tmp_path)
    recording = finish_recording_upload(contributor=alice, upload=send(
        alice, begin(alice, unit, path), path.read_bytes()))
    assert begin(alice, unit, path, sha256=recording.sha256) == recording


@pytest.mark.parametrize("size, words", [(0, "empty"), (MOST_BYTES + 1, "larger than 200 MB")])
def test_a_size_that_cannot_be_taken_is_refused_at_once(alice, unit, size, words):
    with pytest.raises(RecordingRefused, match=words):
        begin_recording_upload(contributor=alice, unit_pk=unit.pk, name="a.csv", size=size,
                               about=About("thermal"))
    assert not RecordingUpload.objects.exists()
