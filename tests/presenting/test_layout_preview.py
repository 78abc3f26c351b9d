"""The first rows of a file, and how the first of them reads."""
from dataclasses import replace

from teardowns.logs.detect import detect_layout
from teardowns.presenting.layout_preview import SHOWN_CELL, SHOWN_ROWS, layout_preview

TEXT = "Time (ms);U (mV);Note\n" + "".join(
    f"{n},5;{5000 + n};{'long ' * 20}\n" for n in range(20))


def preview(text=TEXT, **changed):
    proposal = detect_layout(text.encode())
    return layout_preview(proposal, replace(proposal.layout, **changed))


def test_a_few_rows_are_shown_as_the_file_has_them():
    shown = preview()
    assert shown["heads"] == ["Time (ms)", "U (mV)", "Note"] and len(shown["rows"]) == SHOWN_ROWS
    assert shown["rows"][1] == {"line": 3, "cells": ["1,5", "5001", ("long " * 20)[:SHOWN_CELL]]}


def test_the_first_row_reads_in_si():
    # 0,5 ms and 5000 mV; a note is not read.
    assert preview()["read"] == ["500.000\u202fµs", "5.00000\u202fV", "–"]


def test_a_wrong_mark_shows_at_once():
    assert preview(decimal=".")["read"][0] != "500.000\u202fµs"


def test_a_blank_cell_is_a_blank_and_a_time_of_day_stays_as_it_is():
    shown = preview("Time;U (V);I (A)\n" + "".join(
        f"10:00:{n:02};{'' if n == 0 else '5.01'};1.2\n" for n in range(20)))
    assert shown["read"][:2] == ["10:00:00", "blank"]
