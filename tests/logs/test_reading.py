"""Logs read in slices: the numbers of the text, or a refusal with its place."""
import io
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardowns.logs import limits
from teardowns.logs.channel_files import file_names, finish, open_channels
from teardowns.logs.layout import Layout, LogColumn
from teardowns.logs.reading import Progress, read_slice
from tests.logs.reading import AMPERES, COLUMNS, TIME, VOLTS, laid_out, numbers, read, refused

THREE = "0.5,5.1,1\n1.5,5.2,1.25\n2.5,5.3,1.5\n"
FLOATS = st.floats(-1e9, 1e9)
READ = [[0.0, 1.0, 2.0], [5.1, 5.2, 5.3], [1.0, 1.25, 1.5]]


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16-le", "utf-16-be", "cp1252"])
def test_a_log_reads_alike_with_any_line_end_in_any_encoding(end, encoding, tmp_path):
    text = ("Zeit;Spannung °;Strom\n" + THREE).replace("\n", end)
    assert numbers(read(text, laid_out(first_line=2, encoding=encoding), tmp_path)) == READ


def test_a_byte_order_mark_at_the_start_is_skipped(tmp_path):
    for encoding in ("utf-8", "utf-16-le", "utf-16-be"):
        layout = laid_out(encoding=encoding)
        assert numbers(read("\ufeff" + THREE, layout, tmp_path / encoding)) == READ


@pytest.mark.parametrize("text", [
    THREE + "\n\r\n  \n", THREE.replace("\n", ",\n"), THREE + ",,\n", THREE.rstrip("\n"),
    THREE.replace(",", " , "), THREE.replace("1.5,5.2", "1.5,+5.2E+0"),
    THREE.replace("5.1", '"5.1"'), THREE.replace("2.5,", "\n2.5,")])
def test_what_says_nothing_changes_nothing(text, tmp_path):
    assert numbers(read(text, laid_out(), tmp_path)) == READ


def test_semicolons_and_decimal_commas_read_exactly(tmp_path):
    text = THREE.replace(",", ";").replace(".", ",")
    assert numbers(read(text, laid_out(";", ","), tmp_path)) == READ


def test_runs_of_blanks_separate(tmp_path):
    text = "  " + THREE.replace(",", " \t  ").replace("\n", " \n ")
    assert numbers(read(text, laid_out(" "), tmp_path)) == READ


def test_words_in_a_column_that_is_not_used_are_passed_over(tmp_path):
    layout = laid_out(columns=(*COLUMNS, LogColumn(3, "Mode")))
    assert numbers(read(THREE.replace("\n", ",CC\n"), layout, tmp_path)) == READ


def test_a_blank_cell_is_missing_and_never_zero(tmp_path):
    for text in ("0,,1\n1,5.2,\n2,5.3,\n", "0, ,1\n1,5.2,\n2,5.3, \n"):
        _, volts, amperes = numbers(read(text, laid_out(), tmp_path))
        assert np.array_equal(volts, [np.nan, 5.2, 5.3], equal_nan=True)
        assert np.array_equal(amperes, [1.0, np.nan, np.nan], equal_nan=True)


def test_units_become_si_to_the_last_bit(tmp_path):
    layout = laid_out(columns=(replace(TIME, unit="ms"), replace(VOLTS, unit="mV"), LogColumn(
        2, "T", "temperature", "°F")))
    read_numbers = numbers(read("100,4321,212\n103,5099,32\n", layout, tmp_path))
    # 4321 mV = 4.321 V; 212 °F = 100 °C, 32 °F = 0 °C (boiling and freezing point of water)
    assert read_numbers == [[0.0, 0.003], [4.321, 5.099], [pytest.approx(100.0), 0.0]]


def test_rows_without_a_time_are_counted_out(tmp_path):
    layout = laid_out(columns=(replace(VOLTS, index=0),), time_style="interval", interval=0.25)
    assert numbers(read("5.1\n5.2\n5.3\n", layout, tmp_path, 1)) == [
        [0.0, 0.25, 0.5], [5.1, 5.2, 5.3]]


def test_an_empty_line_that_could_be_a_reading_is_refused(tmp_path):
    layout = laid_out(columns=(replace(VOLTS, index=0),), time_style="interval", interval=0.25)
    for most_bytes in (1, 5, 1000):
        with refused("empty_line", 2):
            read("5.1\n\n5.3\n", layout, tmp_path, most_bytes)
    assert numbers(read("5.1\n5.3\n\n\n", layout, tmp_path))[1] == [5.1, 5.3]


def test_a_clock_goes_on_over_midnight(tmp_path):
    layout = laid_out(columns=(TIME, VOLTS), time_style="clock")
    text = "23:59:58.5,5\n23:59:59,5\n00:00:00.5,5\n00:00:01,5\n"
    for most_bytes in (1, 1000):
        assert read(text, layout, tmp_path, most_bytes).time.tolist() == [0.0, 0.5, 2.0, 2.5]


def test_a_date_and_time_keeps_its_tenths(tmp_path):
    layout = laid_out(columns=(TIME, VOLTS), time_style="clock", date_order="ymd")
    text = "2026-03-01T23:59:59.8+05:30,5\n2026-03-01T23:59:59.9+05:30,5\n" \
           "2026-03-02T00:00:30.1+05:30,5\n"
    assert read(text, layout, tmp_path).time.tolist() == [0.0, 0.1, 30.3]


def test_equal_times_stay_equal(tmp_path):
    text = "1,5,1\n1,6,1\n2,7,1\n"
    assert read(text, laid_out(), tmp_path).time.tolist() == [0.0, 0.0, 1.0]


@pytest.mark.parametrize(("text", "code", "line", "column"), [
    ("0,5,1\n1,5,1\n0.9,5,1\n", "time_runs_back", 3, 1),
    ("0,5,1\n1,5,1\n0,5,1\n1,5,1\n", "second_log", 3, 1),
    ("0,5,1\n1,5,1\nTime,Voltage,Current\n0,5,1\n", "second_log", 3, None),
    ("0,5,1\n1,5\n2,5,1\n", "too_few_cells", 2, 3),
    ("0,5,1\n1,5,1,7\n2,5,1\n", "too_many_cells", 2, 4),
    ("0,5,1\n1,5,1\nEnd of log\n", "text_among_rows", 3, None),
    ("0,5,1\n1,5,1\nstopped,by,user\n", "text_among_rows", 3, None),
    ("0,5,1\n,5,1\n2,5,1\n", "time_missing", 2, 1),
    ("0,5,1\n1,5,1e999\n2,x,1\n", "too_large", 2, 3),
    ("0,5,1\n1,5,1e-400\n2,5,1\n", "too_small", 2, 3),
    ("0,5,1\n1,\"5,1\n2,5,1\n", "quotes", 2, 2),
    ("0,5,1\n1,5\0,1\n2,5,1\n", "zero_bytes", 2, 2),
    ("0,5,1\n1,5,1\n\ufeff0,5,1\n", "mark_inside", 3, 1),
    ("0,5,1\n1,5,1\n2,5," + "1" * 201 + "\n", "cell_too_long", 3, 3),
    ("0,5,1\n0,5,1\n0,6,1\n", "time_stands_still", 1, 1),
    ("0,5,1\n", "too_few_rows", 1, None), ("", "too_few_rows", 1, None),
    ("0,5,1\n1,nan,1\n", "not_a_number", 2, 2),
    ("0,5,1\n1,inf,1\n", "not_a_number", 2, 2),
])
@pytest.mark.parametrize("most_bytes", [1, 9, 1000])
def test_what_cannot_be_read_is_refused_with_its_place(text, code, line, column, most_bytes,
                                                       tmp_path):
    with refused(code, line, column):
        read(text, laid_out(), tmp_path, most_bytes)


def test_the_topmost_of_several_bad_cells_is_named(tmp_path):
    with refused("text", 2, 3):
        read("0,5,1\n1,5,x\n2,y,1\n3,5\n", laid_out(), tmp_path)


def test_a_byte_that_is_no_text_is_refused_where_a_number_needs_it(tmp_path):
    data = THREE.encode()
    with refused("text", 2, 2):
        read(data.replace(b"5.2", b"5.2\xff"), laid_out(), tmp_path)


def test_limits_are_told_with_their_place(tmp_path, monkeypatch):
    with refused("too_large"):
        read_slice(io.BytesIO(), limits.MOST_BYTES + 1, laid_out(), None, tmp_path)
    with refused("too_many_columns", 1, 65):
        read("", laid_out(columns=(TIME, *[LogColumn(i, "") for i in range(1, 65)])), tmp_path)
    with refused("line_too_long", 3):
        read(b"0,5,1\n1,5,1\n" + b"7" * 2_000_000, laid_out(), tmp_path)
    monkeypatch.setattr(limits, "MOST_ROWS", 2)
    with refused("too_many_rows", 3):
        read(THREE, laid_out(), tmp_path)


def test_a_layout_without_time_is_refused(tmp_path):
    with refused("no_time"):
        read(THREE, laid_out(columns=(LogColumn(0, "t"), VOLTS, AMPERES)), tmp_path)


@settings(max_examples=30, deadline=None)
@given(rows=st.lists(st.tuples(FLOATS, FLOATS), min_size=2, max_size=30),
       most_bytes=st.integers(1, 200), end=st.sampled_from(["\n", "\r\n", "\r"]),
       encoding=st.sampled_from(["utf-8", "utf-16-le"]))
def test_slices_of_any_size_give_the_same_numbers(tmp_path_factory, rows, most_bytes, end,
                                                  encoding):
    text = end.join(f"{i},{v!r},{a!r}" for i, (v, a) in enumerate(rows))
    channels = read(text, laid_out(encoding=encoding), tmp_path_factory.mktemp("log"), most_bytes)
    assert numbers(channels) == [list(range(len(rows))), *map(list, zip(*rows, strict=True))]


def slice_of(layout, progress, folder, most_bytes=12):
    data = THREE.encode()
    return read_slice(io.BytesIO(data), len(data), layout, progress, folder, most_bytes)


def test_a_slice_that_is_read_twice_counts_once(tmp_path):
    """A crash after the files grew and before the progress was noted."""
    layout = laid_out()
    noted = Progress.from_json(slice_of(layout, None, tmp_path).to_json())
    slice_of(layout, noted, tmp_path)
    assert slice_of(layout, noted, tmp_path, 1000).finished
    assert read_slice(io.BytesIO(THREE.encode()), len(THREE), layout, noted, tmp_path).rows == 3
    assert {(tmp_path / name).stat().st_size for name in file_names(layout)[:-1]} == {128 + 3 * 8}


def test_reading_begins_anew_where_files_were_lost(tmp_path):
    layout = laid_out()
    noted = slice_of(layout, None, tmp_path)
    assert 0 < noted.share < 1 and noted.rows
    (tmp_path / file_names(layout)[0]).unlink()
    assert slice_of(layout, noted, tmp_path) == noted


def test_a_refusal_leaves_what_was_noted_readable(tmp_path):
    layout, bad = laid_out(), THREE.replace("5.3", "five").encode()
    noted = slice_of(layout, None, tmp_path)
    with refused("text", 3, 2):
        read_slice(io.BytesIO(bad), len(bad), layout, noted, tmp_path)
    assert slice_of(layout, noted, tmp_path, 1000).rows == 3


def test_a_stored_log_that_is_shorter_than_it_was_is_no_readers_fault(tmp_path):
    with pytest.raises(EOFError):
        read_slice(io.BytesIO(b"0,5,1\n"), 100, laid_out(), None, tmp_path)


@pytest.mark.parametrize(("cell", "unit", "digit"), [
    ("2.000", "A", 1e-3), ("2000", "mA", 1e-3), ("2.00E+00", "A", 1e-2), ("2", "A", 1.0)])
def test_the_last_digit_is_known_from_the_text(tmp_path, cell, unit, digit):
    layout = Layout("utf-8", ",", ".", 1, (
        LogColumn(0, "t", "time", "s"), LogColumn(1, "I", "output_current", unit)))
    text = "".join(f"{row},{cell}\n" for row in range(5)).encode()
    read_slice(io.BytesIO(text), len(text), layout, None, tmp_path)
    finish(tmp_path, layout)
    assert open_channels(tmp_path, layout).channels[0].step == pytest.approx(digit)


def test_a_date_in_another_column_keeps_no_clock_from_passing_midnight(tmp_path):
    layout = Layout("utf-8", ";", ",", 1, (
        LogColumn(0, "Datum"), LogColumn(1, "Uhrzeit", "time", ""),
        LogColumn(2, "U", "output_voltage", "V")), time_style="clock")
    text = b"03.04.2026;23:59:59;5,0\n04.04.2026;00:00:01;5,1\n"
    read_slice(io.BytesIO(text), len(text), layout, None, tmp_path)
    finish(tmp_path, layout)
    assert open_channels(tmp_path, layout).time.tolist() == [0.0, 2.0]
