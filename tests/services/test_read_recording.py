"""Slice after slice, whatever ends a request: no row is lost, none stands twice."""
import os
import signal
from dataclasses import replace

import numpy as np
import pytest
from django.core.files.storage import storages

from teardowns.logs.refusals import RefusedLog
from teardowns.models import Recording
from teardowns.services import read_recording as subject
from teardowns.services.read_recording import NotRead, channels_of, read_on
from teardowns.services.recording_files import reading_alone, work_folder
from tests.recordings import (
    AIR,
    SETTLED,
    THERMAL,
    again,
    lay_out,
    read_whole,
    take_in,
    thermal_log,
)

pytestmark = pytest.mark.django_db
ROWS = 241


@pytest.fixture(autouse=True)
def short_slices(monkeypatch):
    """A fifth of the log in a slice."""
    monkeypatch.setattr(subject, "SLICE", 800)


def check_whole(recording):
    """Each row once, in its order."""
    recording = again(recording)
    assert recording.is_read and recording.rows == ROWS
    with channels_of(recording) as channels:
        assert np.array_equal(channels.time, 10.0 * np.arange(ROWS))
        case, air = (channels.of(role).values for role in ("temperature", "ambient_temperature"))
        assert len(case) == len(air) == ROWS
        assert (case == SETTLED).all() and (air == AIR).all()


def test_each_call_reads_one_slice_and_the_row_tells_how_far(laid_out):
    seen = [read_on(laid_out)]
    assert again(laid_out).progress == seen[0].to_json()
    while not seen[-1].finished:
        seen.append(read_on(laid_out))
    assert len(seen) > 3 and [one.rows for one in seen] == sorted({one.rows for one in seen})
    check_whole(laid_out)


def test_what_was_read_is_not_read_again(recording):
    assert read_on(recording).finished
    assert again(recording).channels == recording.channels
    assert not work_folder(recording.reading).exists()


@pytest.mark.parametrize("step", ["_write_down", "_still", "finish", "keep_channels",
                                  "forget_work"])
@pytest.mark.parametrize("slices", [0, 1, 9])
def test_a_crash_at_any_step_loses_nothing_and_doubles_nothing(
        laid_out, monkeypatch, step, slices):
    def crash(*args):
        raise SystemExit

    for _ in range(slices):
        if read_on(laid_out).finished:
            break
    with monkeypatch.context() as broken:
        broken.setattr(subject, step, crash)
        for _ in range(3):
            try:
                read_on(laid_out)
            except SystemExit:
                break
    read_whole(laid_out)
    check_whole(laid_out)


def test_half_a_row_that_a_kill_left_behind_is_cut_off(laid_out):
    read_on(laid_out)
    for file in (work_folder(laid_out.reading) / "channels").iterdir():
        with file.open("ab") as grown:
            grown.write(b"\x01" * 13)
    read_whole(laid_out)
    check_whole(laid_out)


def test_who_comes_while_another_reads_is_told_how_far_it_came(laid_out):
    first = read_on(laid_out)
    with reading_alone(laid_out.reading) as is_alone:
        assert is_alone
        assert read_on(laid_out) == first
    assert read_on(laid_out).rows > first.rows


def test_a_killed_process_keeps_nobody_out(laid_out):
    child = os.fork()
    if not child:                        # touches no database: the connection is the parent's
        with reading_alone(laid_out.reading):
            os.kill(os.getpid(), signal.SIGKILL)
    assert os.WTERMSIG(os.waitpid(child, 0)[1]) == signal.SIGKILL
    with reading_alone(laid_out.reading) as is_alone:
        assert is_alone


def test_two_machines_in_turn_both_come_to_the_end(laid_out, settings, tmp_path):
    for turn in range(30):
        settings.INCOMING = tmp_path / f"machine-{turn % 2}"
        if read_on(laid_out).finished:
            break
    check_whole(laid_out)


def test_a_machine_that_lost_its_folder_begins_at_the_first_byte(laid_out, settings, tmp_path):
    first = read_on(laid_out)
    read_on(laid_out)
    settings.INCOMING = tmp_path / "another"
    assert read_on(laid_out) == first
    read_whole(laid_out)
    check_whole(laid_out)


def test_a_full_disk_leaves_nothing_behind_and_reading_goes_on_later(
        laid_out, monkeypatch, tmp_path):
    def full(self, name, content):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as broken:
        broken.setattr(type(storages["channels"]), "_save", full)
        with pytest.raises(OSError, match="No space"):
            read_whole(laid_out)
    assert not again(laid_out).is_read
    assert not [path for path in (tmp_path / "channels").rglob("*") if path.is_file()]
    read_whole(laid_out)
    check_whole(laid_out)


@pytest.fixture
def odd(alice, unit, tmp_path):
    """A log whose row 200 holds a word where a number is due."""
    path = thermal_log(tmp_path, "odd.csv")
    lines = path.read_text("utf-8").splitlines(keepends=True)
    lines[200] = "1990,six,25.0\n"             # line 201: the heading is line 1
    path.write_text("".join(lines), "utf-8")
    return lay_out(alice, take_in(alice, unit, path))


def test_a_refusal_names_line_and_column_and_stays_until_the_layout_is_mended(odd):
    for _ in range(2):
        with pytest.raises(RefusedLog) as refused:
            read_whole(odd)
        assert (refused.value.line, refused.value.column) == (201, 2)
    row = again(odd)
    assert (row.refusal_line, row.refusal_column) == (201, 2) and row.refusal
    assert not row.is_read and not work_folder(row.reading).exists()
    assert storages["originals"].exists(f"{row.sha256[:2]}/{row.sha256}")


def test_with_a_mended_layout_it_is_read_from_the_beginning(alice, odd):
    with pytest.raises(RefusedLog):
        read_whole(odd)
    only_air = replace(THERMAL, columns=(
        THERMAL.columns[0], replace(THERMAL.columns[1], role="not_used"), THERMAL.columns[2]))
    row = read_whole(lay_out(alice, again(odd), only_air))
    assert (row.rows, row.refusal, row.refusal_line) == (ROWS, "", None)


def test_what_is_not_laid_out_is_not_read(alice, unit, tmp_path):
    recording = take_in(alice, unit, thermal_log(tmp_path))
    with pytest.raises(NotRead):
        read_on(recording)


def test_there_are_no_channels_before_the_end(laid_out):
    read_on(laid_out)
    with pytest.raises(NotRead), channels_of(again(laid_out)):
        pass
    assert not Recording.objects.shown().exists()
