"""Results are read out once, kept with what they depend on, and follow their span."""
import json
import math
from dataclasses import replace

import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Extracted
from teardowns.logs.layout import LogColumn
from teardowns.services import extract_results as subject
from teardowns.services.extract_results import SpanRefused, move_span, results_of
from teardowns.services.locked_recording import StaleRecording
from teardowns.services.read_recording import NotRead
from tests.recordings import THERMAL, again, lay_out, read_whole, take_in

pytestmark = pytest.mark.django_db
CODE = "case_temperature"


def only(results, code=CODE):
    found, = (one for one in results if one["code"] == code)
    return found


def moved(alice, recording, span, code=CODE):
    recording = again(recording)
    return move_span(author=alice, recording=recording, name=code, span=span,
                     version=recording.version)


def test_a_case_that_stands_at_60_degrees_is_read_as_60(recording):
    found = only(results_of(recording))
    assert found["value"] == pytest.approx(60.0) and found["kind"] == "number"
    # 241 rows of 10 s end at 2400 s; the mean of the last ten minutes begins at 1800 s.
    assert (found["start"], found["end"]) == (1800.0, 2400.0)
    assert json.loads(json.dumps(found, allow_nan=False)) == found


def test_they_are_kept_in_the_row_and_named_in_the_document(recording):
    assert again(recording).results == []
    results_of(recording)
    row = again(recording)
    assert only(row.results)["value"] == pytest.approx(60.0)
    assert row.extracted[CODE] == pytest.approx(60.0)
    assert row.version == recording.version


def test_they_are_not_read_again_for_nothing(recording, monkeypatch):
    before = results_of(recording)
    monkeypatch.setattr(subject, "channels_beside", None)
    assert results_of(again(recording)) == before


@pytest.mark.parametrize("change", ["edition", "conditions", "kind"])
def test_they_are_read_again_when_what_they_depend_on_changes(
        alice, recording, monkeypatch, change):
    results_of(recording)
    basis = again(recording).results_from
    if change == "edition":
        monkeypatch.setattr(subject, "edition", lambda: "of the next version")
    elif change == "conditions":
        lay_out(alice, again(recording), conditions=Conditions(ambient=24.0))
    else:
        lay_out(alice, again(recording), kind="protocol")
    row = again(recording)
    results_of(row)
    assert row.results_from != basis


def test_a_moved_span_is_where_its_result_is_read_from(alice, recording):
    others = [one for one in results_of(recording) if one["code"] != CODE]
    results = moved(alice, recording, (300.0, 1500.0))
    found = only(results)
    assert 300.0 <= found["start"] < found["end"] == 1500.0
    assert [one for one in results if one["code"] != CODE] == others
    assert results_of(again(recording)) == results
    assert Entry.objects.filter(action="span_moved", actor=alice).get().detail == {
        "recording": recording.key, "name": CODE, "span": [300.0, 1500.0]}


def test_the_span_stays_when_all_is_read_again(alice, recording, monkeypatch):
    results = moved(alice, recording, (300.0, 1500.0))
    monkeypatch.setattr(subject, "edition", lambda: "of the next version")
    assert results_of(again(recording)) == results


def test_a_result_goes_back_to_where_the_reader_looks(alice, recording):
    before = results_of(recording)
    moved(alice, recording, (300.0, 1500.0))
    assert moved(alice, recording, None) == before
    assert again(recording).spans == {}


def test_a_span_in_which_nothing_shows_says_so_and_can_be_moved_again(alice, recording):
    assert only(moved(alice, recording, (300.0, 301.0)))["kind"] == "unread"
    assert only(moved(alice, recording, (300.0, 1500.0)))["kind"] == "number"


@pytest.mark.parametrize("span, words", [
    ((500.0, 500.0), "ends before it begins"), ((9000.0, 9500.0), "runs from 0 to 2400 s")])
def test_a_span_that_is_none_is_refused(alice, recording, span, words):
    with pytest.raises(SpanRefused, match=words):
        moved(alice, recording, span)
    assert again(recording).spans == {}


def test_a_result_that_the_log_does_not_have_has_no_span(alice, recording):
    with pytest.raises(SpanRefused, match="no such result"):
        moved(alice, recording, (0.0, 100.0), "ripple_voltage")


def test_a_recording_that_was_changed_meanwhile_is_left_alone(alice, recording):
    with pytest.raises(StaleRecording):
        move_span(author=alice, recording=recording, name=CODE, span=(300.0, 1500.0), version=1)
    assert again(recording).spans == {}


def test_nobody_moves_a_span_of_somebody_elses_log(bob, recording):
    with pytest.raises(Http404):
        moved(bob, recording, (300.0, 1500.0))


def test_a_log_that_is_not_read_has_no_results(laid_out):
    with pytest.raises(NotRead):
        results_of(laid_out)


@pytest.mark.parametrize("value, u", [(math.nan, 1.0), (1.0, math.inf)])
def test_a_number_that_is_none_is_said_to_be_unread(value, u):
    sound = subject._sound(Extracted(CODE, "Case", value, u, "°C", 0.0, 1.0))
    assert (sound.code, sound.to_json()["kind"]) == (CODE, "unread")


def test_blank_rows_give_no_number(alice, unit, tmp_path):
    path = tmp_path / "blank.csv"
    path.write_text("Time (s),Case (°C),Air (°C)\n" + "".join(
        f"{10 * row},,25.0\n" for row in range(100)), "utf-8")
    recording = read_whole(lay_out(alice, take_in(alice, unit, path)))
    assert only(results_of(recording))["kind"] == "unread"


@pytest.fixture
def two_sensors(alice, unit, tmp_path):
    """Two columns of one place: 60 °C and 70 °C, for 20 min and, 5 K warmer, for 20 min more."""
    path = tmp_path / "two.csv"
    path.write_text("Time (s),A (°C),B (°C)\n" + "".join(
        f"{10 * row},{60.0 + 5 * (row > 120)},{70.0 + 5 * (row > 120)}\n"
        for row in range(241)), "utf-8")
    layout = replace(THERMAL, columns=(
        THERMAL.columns[0], replace(THERMAL.columns[1], label="A (°C)"),
        LogColumn(2, "B (°C)", "temperature", "°C", CODE)))
    return read_whole(lay_out(alice, take_in(alice, unit, path), layout))


def test_of_two_results_of_one_code_each_has_its_name_and_its_span(alice, two_sensors):
    assert [(one["name"], one["value"]) for one in results_of(two_sensors)] == [
        (CODE, pytest.approx(65.0)), (f"{CODE}#2", pytest.approx(75.0))]
    moved(alice, two_sensors, (0.0, 1200.0), f"{CODE}#2")
    assert [(one["name"], one["value"]) for one in results_of(again(two_sensors))] == [
        (CODE, pytest.approx(65.0)), (f"{CODE}#2", pytest.approx(70.0))]
