"""A log is kept byte for byte, once a unit, or refused by name with nothing left behind."""
from hashlib import sha256

import pytest
from django.core.files.storage import storages
from django.http import Http404

from core.audit.models import Entry
from teardowns.logs.limits import MOST_BYTES
from teardowns.models import Port, Recording, Status
from teardowns.services import receive_recording as subject
from teardowns.services.describe_recording import take_down_recording
from teardowns.services.photo_files import original_name
from teardowns.services.receive_recording import RecordingRefused
from tests.recordings import take_in, thermal_log

pytestmark = pytest.mark.django_db


def test_the_original_is_kept_byte_for_byte_under_its_digest(alice, unit, tmp_path):
    path = thermal_log(tmp_path)
    recording = take_in(alice, unit, path)
    with storages["originals"].open(original_name(recording.sha256)) as kept:
        assert kept.read() == path.read_bytes()
    assert recording.sha256 == sha256(path.read_bytes()).hexdigest()
    assert (recording.byte_size, recording.original_name) == (path.stat().st_size, "warm.csv")


def test_what_is_said_of_it_is_kept_and_receiving_is_logged(alice, unit, tmp_path):
    port = Port.objects.create(unit=unit, author=alice, key="c1", label="C1")
    recording = take_in(alice, unit, thermal_log(tmp_path), port="c1", instrument="Logger 8")
    assert (recording.kind, recording.port, recording.instrument) == ("thermal", port, "Logger 8")
    entry = Entry.objects.get(action="recording_received")
    assert (entry.actor, entry.unit) == (alice, unit.pk)
    assert entry.detail == {"recording": "thermal-1", "sha256": recording.sha256}
    assert recording.history.get().history_user == alice


def test_keys_are_counted_by_kind(alice, unit, tmp_path):
    keys = [take_in(alice, unit, thermal_log(tmp_path, case=case)).key for case in (50.0, 51.0)]
    assert keys == ["thermal-1", "thermal-2"]


def test_the_same_file_twice_is_one_recording(alice, unit, tmp_path):
    path = thermal_log(tmp_path)
    assert take_in(alice, unit, path) == take_in(alice, unit, path, "endurance")
    assert Recording.objects.get().kind == "thermal"


def test_one_file_in_two_units_is_stored_once(alice, unit, tmp_path):
    path, other = thermal_log(tmp_path), type(unit).objects.create(contributor=alice, title="B")
    assert take_in(alice, unit, path) != take_in(alice, other, path)
    assert len([one for one in (tmp_path / "originals").rglob("*") if one.is_file()]) == 1


@pytest.mark.parametrize("content, words", [
    (b"", "the file is empty. Choose it again"), (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "")])
def test_what_is_no_log_is_refused_by_name_and_leaves_nothing(
        alice, unit, tmp_path, settings, content, words):
    path = tmp_path / "odd.csv"
    path.write_bytes(content)
    with pytest.raises(RecordingRefused, match=f"^odd.csv: {words}") as refused:
        take_in(alice, unit, path)
    assert len(refused.value.message) > 20
    assert not Recording.objects.exists() and not Entry.objects.exists()
    left = [tmp_path / "originals", settings.INCOMING]
    assert not [one for place in left for one in place.rglob("*") if one.is_file()]


def test_a_file_over_the_limit_is_refused_before_it_is_looked_at(alice, unit, tmp_path):
    path = tmp_path / "long.csv"
    with path.open("wb") as file:
        file.truncate(MOST_BYTES + 1)           # sparse: no such file is written
    with pytest.raises(RecordingRefused, match="larger than 200 MB. Log with a longer interval"):
        take_in(alice, unit, path)


def test_a_crash_between_file_and_row_leaves_a_file_and_no_row(
        alice, unit, tmp_path, monkeypatch):
    def crash(*args):
        raise SystemExit

    with monkeypatch.context() as broken:
        broken.setattr(subject, "_record", crash)
        with pytest.raises(SystemExit):
            take_in(alice, unit, thermal_log(tmp_path))
    assert not Recording.objects.exists()
    assert storages["originals"].exists(original_name(
        take_in(alice, unit, thermal_log(tmp_path)).sha256))


def test_a_full_disk_leaves_no_row_and_no_half_a_file(alice, unit, tmp_path, monkeypatch):
    def full(descriptor):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as broken:
        broken.setattr("os.fsync", full)
        with pytest.raises(OSError, match="No space"):
            take_in(alice, unit, thermal_log(tmp_path))
    assert not Recording.objects.exists()
    assert not [one for one in (tmp_path / "originals").rglob("*") if one.is_file()]


def test_a_recording_that_was_taken_down_comes_back_when_it_is_sent_again(alice, unit, tmp_path):
    path = thermal_log(tmp_path)
    recording = take_in(alice, unit, path)
    take_down_recording(author=alice, recording=recording, reason="of another unit")
    assert not unit.recordings.kept().exists()
    take_in(alice, unit, path)
    assert unit.recordings.kept().get() == recording


def test_a_recording_that_came_with_a_document_gets_its_file(alice, unit, tmp_path):
    path = thermal_log(tmp_path)
    row = Recording.objects.create(
        unit=unit, key="warm-up", author=alice, caption="From a document", kind="thermal",
        sha256=sha256(path.read_bytes()).hexdigest(), byte_size=path.stat().st_size)
    assert not unit.recordings.kept().exists()
    assert take_in(alice, unit, path).pk == row.pk
    row = unit.recordings.kept().get()
    assert (row.key, row.caption) == ("warm-up", "From a document")


@pytest.mark.parametrize("status", [Status.SUBMITTED, Status.PUBLISHED])
def test_a_sheet_that_is_not_open_takes_no_recording(alice, unit, tmp_path, status):
    type(unit).objects.filter(pk=unit.pk).update(status=status)
    with pytest.raises(Http404):
        take_in(alice, unit, thermal_log(tmp_path))


def test_nobody_sends_recordings_to_somebody_elses_sheet(bob, unit, tmp_path):
    with pytest.raises(Http404):
        take_in(bob, unit, thermal_log(tmp_path))
