"""How a log is called, how far it came, and what is said of how it was taken."""
import pytest

from teardowns.logs.conditions import Cable, Conditions
from teardowns.models import Recording
from teardowns.presenting.recording_sheet import (
    columns_said,
    conditions_said,
    percent_read,
    recording_row,
    state_of,
    title,
)


@pytest.mark.parametrize("key, kind, words", [
    ("load-sweep-1", "load_sweep", "Load sweep"), ("load-sweep-2", "load_sweep", "Load sweep 2"),
    ("held-at-5-v", "endurance", "Endurance run")])
def test_a_log_is_called_by_its_kind_and_number(key, kind, words):
    assert title(Recording(key=key, kind=kind)) == words


@pytest.mark.parametrize("about, says", [
    ({}, "Say how it is read."),
    ({"kind": "protocol"}, "Kept."),
    ({"layout": {"columns": []}, "progress": {"offset": 1, "size": 4}}, "Read so far: 25 %."),
    ({"layout": {"columns": []}}, "Read so far: 0 %."),
    ({"refusal": "No number.", "refusal_line": 12, "refusal_column": 3},
     "Not read: Line 12, column 3: No number."),
    ({"refusal": "No number."}, "Not read: No number."),
    ({"layout": {"columns": []}, "channels": "a",
      "results": [{"kind": "number"}, {"kind": "told"}]}, "Read, 1 number found."),
    ({"layout": {"columns": []}, "channels": "a"}, "Read, 0 numbers found.")])
def test_a_list_says_how_far_it_came(about, says):
    assert state_of(Recording(**{"kind": "thermal"} | about)) == says


def test_an_empty_size_is_no_division():
    assert percent_read(Recording(progress={"offset": 0, "size": 0})) == 0


def test_the_name_of_the_file_is_apart_from_what_others_see():
    row = recording_row(Recording(key="thermal-1", kind="thermal", original_name="mine.csv",
                                  rows=12_345, instrument="Logger 8"))
    assert (row["caption"], row["file"]) == ("", "mine.csv")
    assert row["facts"] == ["12\u202f345 rows", "Logger 8"]


def test_what_is_stated_is_said_and_what_is_not_is_left_out():
    stated = Conditions(mains_voltage=230.0, mains_frequency=50.0, cable=Cable(1.0, 2e-7))
    said = conditions_said(Recording(conditions=stated.to_json()))
    assert [label for label, _ in said] == ["Mains", "Mains", "Cable to the meter"]
    assert said[0][1] == "230\u202fV"
    assert conditions_said(Recording()) == [] == columns_said(Recording())
