"""Exports: RFC 4180, headings as OWASP's "CSV Injection" advises, numbers that read back."""
import csv
import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardowns.logs.channels import Channel, Channels
from teardowns.logs.layout import LogColumn
from teardowns.logs.written import rows_as_text, without_formula
from tests.logs.reading import laid_out, read

FLOATS = st.floats(allow_infinity=False, width=64)
FORMULA_STARTS = tuple("=+-@\t\r\n＝＋－＠")


def channels(time, volts, label="Voltage", role="output_voltage"):
    return Channels(np.array(time), (Channel(LogColumn(1, label, role), np.array(volts)),))


def text_of(log):
    return "".join(rows_as_text(log, log.time[0], log.time[-1]))


def heading(label, role="output_voltage"):
    text = text_of(channels([0.0], [1.0], label, role))
    return next(csv.reader(io.StringIO(text, newline="")))[1]


@settings(max_examples=60, deadline=None)
@given(steps=st.lists(st.floats(0, 1e6), min_size=2, max_size=9), data=st.data())
def test_an_export_reads_back_to_the_last_bit(tmp_path_factory, steps, data):
    time = np.concatenate([[0.0, 1.0], 1.0 + np.cumsum(steps)])
    values = data.draw(st.lists(FLOATS, min_size=len(time), max_size=len(time)))
    layout = laid_out(first_line=2, columns=(LogColumn(0, "time (s)", "time"),
                                            LogColumn(1, "Voltage (V)", "output_voltage")))
    again = read(text_of(channels(time, values)), layout, tmp_path_factory.mktemp("log"))
    assert again.time.tobytes() == time.tobytes()
    assert np.array_equal(again.channels[0].values, values, equal_nan=True)


def test_many_rows_come_in_pieces_and_a_blank_stays_blank():
    log = channels(np.arange(10_000.0), np.full(10_000, np.nan))
    pieces = list(rows_as_text(log, 1.0, 9_998.0))
    assert len(pieces) == 4
    assert pieces[1].startswith("1.0,\r\n") and pieces[-1].endswith("\r\n9998.0,\r\n")


@pytest.mark.parametrize("label", [
    "=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "＝1+1", "＋1", "－1", "＠A1", "  =1",
    "\u200b=1", "=cmd|' /C calc'!A0", '=HYPERLINK("http://a.example","b")', "[V] =1"])
def test_a_heading_that_would_be_run_is_held_by_an_apostrophe(label):
    shown = heading(label)
    assert shown.startswith("'") or not shown.strip().startswith(FORMULA_STARTS)
    assert without_formula(label).lstrip("'").strip() in {label.strip("\t\r\n \u200b")}


@pytest.mark.parametrize(("label", "role", "shown"), [
    ("Voltage [mV]", "output_voltage", "Voltage (V)"), ("U / mV", "output_voltage", "U (V)"),
    ("", "output_current", "output current (A)"), ("T1, case (°F)", "temperature", "T1, case (°C)"),
    ('the "fine" one', "ripple_voltage", 'the "fine" one (V)')])
def test_a_heading_names_the_unit_that_the_numbers_have(label, role, shown):
    assert heading(label, role) == shown


def test_a_negative_number_stays_a_number():
    assert text_of(channels([0.0], [-5.1])).endswith("\r\n0.0,-5.1\r\n")
