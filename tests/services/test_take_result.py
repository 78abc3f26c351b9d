"""A result becomes evidence with all that is known of it, and moves the verdict."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.exchange.document import read_document
from teardowns.logs.conditions import Conditions
from teardowns.logs.layout import Layout, LogColumn
from teardowns.models import Claim, Measurement, Port, RecordingReading
from teardowns.services.assess_units import assess_units
from teardowns.services.export_unit import unit_document
from teardowns.services.extract_results import move_span, results_of
from teardowns.services.locked_recording import StaleRecording
from teardowns.services.save_section import StaleRows
from teardowns.services.take_result import ResultRefused, take_result, taken_from, targets_of
from tests.recordings import again, lay_out, read_whole, take_in, thermal_log

pytestmark = pytest.mark.django_db
CODE = "case_temperature"


def taken(alice, recording, key="case", version=0, code=CODE, span=None, **more):
    found = next(one for one in results_of(recording) if one["code"] == code)
    return take_result(author=alice, recording=recording, name=code, key=key, version=version,
                       span=span or (found["start"], found["end"]), **more)


def test_the_row_has_value_uncertainty_and_where_it_came_from(alice, recording):
    reading, saved = taken(alice, recording)
    row = Measurement.objects.get()
    assert (row.quantity, row.value) == (CODE, pytest.approx(60.0))
    assert row.uncertainty == reading.uncertainty > 0 and row.uncertainty_kind == "standard"
    assert (row.how, row.state, row.recording) == ("measured", "recorded", recording)
    assert (row.author, row.instrument, saved.assessed) == (alice, "Logger 8", True)


def test_the_reading_keeps_span_budget_and_working(alice, recording):
    reading, _ = taken(alice, recording)
    assert (reading.start, reading.end, reading.shows) == (1800.0, 2400.0, "measurement/case")
    total = sum(share ** 2 for _, share in reading.budget) ** 0.5
    assert total == pytest.approx(reading.uncertainty)
    assert reading.working and reading.author == alice
    assert Entry.objects.get(action="result_taken").detail["reading"] == reading.pk


def test_the_verdict_is_worked_out_with_it(alice, recording):
    taken(alice, recording)
    assert recording.unit.assessments.exists()
    assert read_document(unit_document(recording.unit))["measurements"][0]["recording"] == \
        recording.key


def test_what_the_bench_was_set_to_goes_with_it(alice, unit, tmp_path):
    port = Port.objects.create(unit=unit, author=alice, key="c1", label="C1")
    recording = read_whole(lay_out(
        alice, take_in(alice, unit, thermal_log(tmp_path), port="c1"),
        conditions=Conditions(mains_voltage=230.0, mains_frequency=50.0, set_voltage=5.0,
                              ambient=23.0)))
    taken(alice, recording)
    row = Measurement.objects.get()
    assert (row.mains_voltage, row.mains_frequency, row.output_voltage) == (230.0, 50.0, 5.0)
    assert row.port == port


def test_what_the_contributor_adds_goes_over_it(alice, recording):
    taken(alice, recording, values={"note": "Sensor under tape"})
    assert Measurement.objects.get().note == "Sensor under tape"


def test_taking_it_again_from_another_span_changes_the_row_and_adds_a_reading(
        alice, unit, tmp_path):
    # 50 °C for the first 20 minutes, then 60 °C; the last ten minutes of each are read.
    path = thermal_log(tmp_path, case=50.0)
    lines = path.read_text("utf-8").splitlines(keepends=True)
    warm = [line.replace(",50.0,", ",60.0,") for line in lines[122:]]
    path.write_text("".join(lines[:122] + warm), "utf-8")
    recording = read_whole(lay_out(alice, take_in(alice, unit, path)))
    taken(alice, recording)
    move_span(author=alice, recording=again(recording), name=CODE, span=(0.0, 1200.0),
              version=recording.version)
    taken(alice, again(recording), version=1)
    row = Measurement.objects.get()
    assert (row.version, row.value) == (2, pytest.approx(50.0))
    assert [(one.start, one.end) for one in recording.readings.all()] == [
        (1800.0, 2400.0), (600.0, 1200.0)]


def test_a_row_that_was_changed_meanwhile_is_left_alone_and_nothing_is_half_done(alice, recording):
    Measurement.objects.create(unit=recording.unit, author=alice, key="case", quantity=CODE,
                               value=55.0, version=3)
    with pytest.raises(StaleRows):
        taken(alice, recording, version=2)
    assert Measurement.objects.get().value == 55.0 and not RecordingReading.objects.exists()


def test_a_result_that_was_read_again_meanwhile_is_not_taken(alice, recording):
    with pytest.raises(StaleRecording):
        taken(alice, recording, span=(0.0, 10.0))
    assert not Measurement.objects.exists()


def test_a_row_of_another_quantity_is_not_written_over(alice, recording):
    Measurement.objects.create(unit=recording.unit, author=alice, key="mass", value=0.05,
                               quantity="mass_total")
    with pytest.raises(ResultRefused, match="another quantity"):
        taken(alice, recording, key="mass", version=1)
    assert Measurement.objects.get().quantity == "mass_total"


def test_a_value_that_cannot_be_is_refused_with_what_to_check(alice, unit, tmp_path):
    # 900 °C: the quantity ends at 400 °C; somebody chose the wrong unit.
    recording = read_whole(lay_out(alice, take_in(alice, unit, thermal_log(tmp_path, case=900.0))))
    with pytest.raises(ResultRefused, match="check the units of the columns"):
        taken(alice, recording)
    assert not Measurement.objects.exists()


def test_nobody_takes_from_somebody_elses_log(bob, recording):
    with pytest.raises(Http404):
        taken(bob, recording)


def test_a_new_row_is_proposed_first_then_those_that_the_unit_has(alice, recording):
    other = Measurement.objects.create(unit=recording.unit, author=alice, key="typed",
                                       quantity=CODE, value=55.0)
    first, second = targets_of(recording, [CODE])[CODE]
    assert (first.key, first.version, first.row) == ("case-temperature-thermal-1", 0, None)
    assert (second.key, second.version, second.row) == ("typed", 1, other)


def test_the_row_that_was_taken_before_is_proposed_again(alice, recording):
    target, = targets_of(recording, [CODE])[CODE]
    taken(alice, recording, target.key)
    assert [(one.key, one.version) for one in targets_of(recording, [CODE])[CODE]] == [
        (target.key, 1)]


def test_a_key_that_is_in_use_is_not_proposed(alice, recording):
    Measurement.objects.create(unit=recording.unit, author=alice, quantity="mass_total",
                               key="case-temperature-thermal-1", value=0.05)
    assert targets_of(recording, [CODE])[CODE][0].key == "case-temperature-thermal-1-2"


def test_a_page_can_tell_which_row_has_its_value_from_here(alice, recording):
    assert taken_from(recording) == {}
    reading, _ = taken(alice, recording)
    assert taken_from(recording)[CODE] == {
        "key": "case", "version": 1, "value": reading.value, "reading": reading,
        "is_current": True}
    Measurement.objects.update(value=61.0)
    assert not taken_from(recording)[CODE]["is_current"]
    Measurement.objects.all().delete()
    assert taken_from(recording) == {}


LOAD = Layout("utf-8", ",", ".", 2, (
    LogColumn(0, "t", "time", "s"), LogColumn(1, "U", "output_voltage", "V"),
    LogColumn(2, "I", "output_current", "A")))


def test_a_load_that_was_held_moves_the_verdict_of_its_claim(alice, unit, tmp_path):
    # 5.00 V at 2.00 A for half an hour after a minute without load: 10 W, held.
    Claim.objects.create(unit=unit, author=alice, key="out", kind="output", power=10.0,
                         voltage_low=5.0, voltage_high=5.0, current=2.0)
    assess_units([unit])
    before = unit.assessments.first().payload["claims"]
    path = tmp_path / "held.csv"
    path.write_text("t,U,I\n" + "".join(
        f"{t},{5.00 + 0.001 * (t % 2):.3f},{(2.0 + 0.001 * (t % 3)) * (60 <= t < 1900):.3f}\n"
        for t in range(2000)), "utf-8")
    at_bench = Conditions(set_voltage=5.0, mains_voltage=230.0, mains_frequency=50.0)
    recording = read_whole(lay_out(alice, take_in(alice, unit, path, "load_sweep"), LOAD,
                                   at_bench, "load_sweep"))
    taken(alice, recording, "held", code="sustained_power")
    row = Measurement.objects.get()
    assert row.value == pytest.approx(10.0, rel=0.01) and row.output_voltage == 5.0
    assert row.duration >= 600 and row.mains_voltage == 230.0
    assert unit.assessments.first().payload["claims"] != before


SWEEP = Layout("utf-8", ",", ".", 2, (
    LogColumn(0, "t", "time", "s"), LogColumn(1, "U", "output_voltage", "V"),
    LogColumn(2, "I", "output_current", "A"), LogColumn(3, "I set", "set_current", "A")))


def test_what_the_reading_takes_for_granted_is_noted_with_the_row(alice, unit, tmp_path):
    # Up in steps of 0.5 A, a minute each; at 2 A the output is gone, and stays so.
    rows = [(t, 5 - 0.05 * amps if amps < 2 else 0.0, amps if amps < 2 else 0.0, amps)
            for t in range(540) for amps in [min(0.5 * (t // 60), 2.0)]]
    path = tmp_path / "sweep.csv"
    path.write_text("t,U,I,I set\n" + "".join(
        f"{t},{volts:.3f},{amps:.3f},{asked:.3f}\n" for t, volts, amps, asked in rows))
    sweep = take_in(alice, unit, path, kind="load_sweep")
    sweep = read_whole(lay_out(alice, sweep, SWEEP, Conditions(set_voltage=5.0), "load_sweep"))
    taken(alice, sweep, key="limit", code="overcurrent_point")
    row = Measurement.objects.get(key="limit")
    assert "nobody unplugged it in that moment is taken for granted." in row.note
    assert row.value == pytest.approx(1.5, rel=0.02)
