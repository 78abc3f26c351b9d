"""What is said of a log can be corrected; what is taken down is shown to nobody and stays."""
import pytest
from django.core.files.storage import storages
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Port, Recording
from teardowns.services.describe_recording import describe_recording, take_down_recording
from teardowns.services.locked_recording import StaleRecording
from teardowns.services.photo_files import original_name
from tests.recordings import again

pytestmark = pytest.mark.django_db


def describe(author, recording, **more):
    return describe_recording(author=author, recording=recording, **{
        "version": recording.version, "caption": "Warm-up at 5 V", "instrument": "Logger 9",
        "port": "", **more})


def test_it_is_changed_logged_and_what_stood_before_stays(alice, recording):
    port = Port.objects.create(unit=recording.unit, author=alice, key="c1", label="C1")
    assert describe(alice, recording, port="c1")
    row = again(recording)
    assert (row.caption, row.instrument, row.port) == ("Warm-up at 5 V", "Logger 9", port)
    assert row.version == recording.version + 1
    assert [one.caption for one in row.history.order_by("-history_id")[:2]] == [
        "Warm-up at 5 V", ""]
    assert Entry.objects.get(action="recording_described").actor == alice


def test_the_same_said_again_changes_nothing(alice, recording):
    describe(alice, recording)
    assert not describe(alice, recording)          # the page of before: nothing would be lost


def test_a_recording_that_was_changed_meanwhile_is_left_alone(alice, recording):
    describe(alice, recording)
    with pytest.raises(StaleRecording):
        describe(alice, recording, caption="Something else")
    assert again(recording).caption == "Warm-up at 5 V"


def test_what_is_taken_down_is_shown_to_nobody_and_its_files_stay(alice, recording):
    take_down_recording(author=alice, recording=recording, reason="of another unit")
    assert not Recording.objects.shown().exists() and not Recording.objects.kept().exists()
    row = again(recording)
    assert row.take_down_reason == "of another unit" and not row.is_shown
    assert storages["originals"].exists(original_name(row.sha256))
    assert Entry.objects.get(action="recording_taken_down").reason == \
        "of another unit"


def test_nobody_describes_or_takes_down_somebody_elses_log(bob, recording):
    with pytest.raises(Http404):
        describe(bob, recording)
    with pytest.raises(Http404):
        take_down_recording(author=bob, recording=recording, reason="x")
    assert again(recording).is_shown
