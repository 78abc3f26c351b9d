"""What was confirmed is kept, remembered for the instrument, and decides what is read."""
from dataclasses import replace

import pytest
from django.core.files.storage import storages
from django.http import Http404

from core.audit.models import Entry
from teardowns.logs.conditions import Accuracy, Cable, Conditions
from teardowns.logs.layout import Layout
from teardowns.models import InstrumentLayout
from teardowns.services.extract_results import move_span, results_of
from teardowns.services.lay_out_recording import (
    lay_out_recording,
    propose_layout,
    read_anew,
    remembered_layout,
)
from teardowns.services.locked_recording import StaleRecording
from teardowns.services.read_recording import read_on
from tests.recordings import THERMAL, again, lay_out, read_whole, take_in, thermal_log

pytestmark = pytest.mark.django_db
AT_BENCH = Conditions(mains_voltage=230.0, ambient=25.0, cable=Cable(1.0, 2e-7, 0.02),
                      accuracies={"temperature": Accuracy(0.0, 3.0, 1.0)})
WITHOUT_AIR = replace(THERMAL, columns=(*THERMAL.columns[:2],
                                        replace(THERMAL.columns[2], role="not_used")))


def test_layout_and_conditions_come_back_as_they_were_confirmed(alice, laid_out):
    recording = lay_out(alice, laid_out, conditions=AT_BENCH)
    assert Layout.from_json(recording.layout) == THERMAL
    assert Conditions.from_json(recording.conditions) == AT_BENCH


def test_a_document_names_the_headings_that_were_read(laid_out):
    assert laid_out.columns == {"time": "Time (s)", "case_temperature": "Case (°C)",
                                "ambient_temperature": "Air (°C)"}


def test_it_is_logged_with_its_author_and_what_stood_before_stays(alice, laid_out):
    recording = lay_out(alice, laid_out, conditions=AT_BENCH)
    entry = Entry.objects.filter(action="recording_laid_out").first()
    assert entry.actor == alice and entry.detail["conditions"]["ambient"] == 25.0
    newest, before = recording.history.order_by("-history_id")[:2]
    assert (newest.conditions["ambient"], before.conditions["ambient"]) == (25.0, None)


def test_the_next_file_of_the_instrument_is_proposed_as_this_one_was_read(
        alice, unit, laid_out, tmp_path):
    lay_out(alice, laid_out, WITHOUT_AIR)
    for name, role in (("logger  8", "not_used"), ("Another", "ambient_temperature")):
        following = take_in(alice, unit, thermal_log(tmp_path, f"{name}.csv", case=len(name)),
                            instrument=name)
        columns = propose_layout(alice, following).layout.columns
        assert columns[2].role == role


def test_nobody_elses_habits_are_proposed(alice, bob, laid_out):
    row = InstrumentLayout.objects.get()
    assert remembered_layout(alice, "LOGGER 8", row.signature) == THERMAL
    assert remembered_layout(bob, "Logger 8", row.signature) is None
    assert remembered_layout(alice, "Logger 8", "of another heading") is None


def test_the_same_said_again_changes_nothing(alice, recording):
    assert not lay_out_recording(author=alice, recording=recording, layout=THERMAL, version=1,
                                 conditions=Conditions(), kind="thermal")
    assert again(recording).channels == recording.channels


def test_with_other_conditions_the_numbers_stay_and_what_was_read_out_is_read_again(
        alice, recording):
    before = results_of(recording)
    changed = lay_out(alice, recording, conditions=AT_BENCH)
    assert changed.channels == recording.channels
    assert before != results_of(changed)


def test_with_another_layout_reading_begins_anew_and_the_old_numbers_go(
        alice, recording, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        changed = lay_out(alice, recording, WITHOUT_AIR)
    assert not changed.is_read and changed.reading != recording.reading
    assert (changed.rows, changed.results, changed.progress) == (None, [], {})
    assert not storages["channels"].exists(recording.channels)
    assert read_whole(changed).rows == 241


def test_spans_stay_unless_the_time_is_read_in_another_way(alice, recording):
    move_span(author=alice, recording=recording, name="case_temperature", span=(100.0, 900.0),
              version=recording.version)
    changed = lay_out(alice, again(recording), WITHOUT_AIR)
    assert changed.spans == {"case_temperature": [100.0, 900.0]}
    minutes = replace(THERMAL, columns=(replace(THERMAL.columns[0], unit="min"),
                                        *THERMAL.columns[1:]))
    assert lay_out(alice, changed, minutes).spans == {}


def test_a_recording_that_was_changed_meanwhile_is_left_alone(alice, laid_out):
    with pytest.raises(StaleRecording):
        lay_out_recording(author=alice, recording=laid_out, layout=WITHOUT_AIR, version=1,
                          conditions=Conditions(), kind="thermal")
    assert again(laid_out).layout == laid_out.layout


def test_a_reading_that_was_begun_with_the_old_layout_goes_nowhere(alice, laid_out):
    lay_out(alice, laid_out, WITHOUT_AIR)
    assert read_on(laid_out).rows == 0             # the row of the old page
    assert not again(laid_out).is_read


def test_nobody_lays_out_somebody_elses_log(bob, laid_out):
    with pytest.raises(Http404):
        lay_out(bob, laid_out, WITHOUT_AIR)


def test_numbers_that_were_lost_are_read_once_more_with_the_same_layout(alice, bob, recording):
    results_of(recording)
    version = again(recording).version
    with pytest.raises(StaleRecording):
        read_anew(author=alice, recording=recording, version=version - 1)
    with pytest.raises(Http404):
        read_anew(author=bob, recording=recording, version=version)
    read_anew(author=alice, recording=recording, version=version)
    waiting = again(recording)
    assert not waiting.is_read and waiting.layout == recording.layout and waiting.results == []
    assert Entry.objects.filter(action="recording_read_anew", actor=alice).exists()
    assert read_whole(waiting).rows == recording.rows
