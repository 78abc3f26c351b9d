"""The list of units as a table of text."""
import csv
import io
from datetime import UTC, datetime

import pytest

from teardowns.models import ListedUnit
from teardowns.presenting.list_table import COLUMNS, SOURCES, table_lines


def row(**known):
    """A row of the listing of which only so much is known."""
    plain = dict.fromkeys(("title", "maker", "model", "topology", "controller"), "") | {
        "risk": 0, "hazards": [], "connectors": [], "families": [],
        "published_at": datetime(2026, 3, 1, 23, 59, tzinfo=UTC)}
    return [(plain | known).get(source) for source in SOURCES]


def read(*rows):
    return list(csv.DictReader(io.StringIO("".join(table_lines(rows, "X")), newline="")))


def test_every_heading_is_there_once_with_the_licence_last():
    heading = next(csv.reader(io.StringIO(next(table_lines([], "X")))))
    assert heading == [*(column.heading for column in COLUMNS), "licence"]
    assert len(set(heading)) == len(heading)


def test_every_quantity_has_its_unit_in_the_heading():
    # Whole numbers count something and have no unit.
    numbers = {field.name for field in ListedUnit._meta.fields
               if field.get_internal_type() == "FloatField"}
    assert numbers == {column.source for column in COLUMNS if column.heading.endswith(")")}


@pytest.mark.parametrize("value", [0.1, 1e-7, 22.5, 1 / 3])
def test_a_number_reads_back_as_the_same_and_is_never_held_for_a_text(value):
    assert float(read(row(mass=value))[0]["mass (kg)"]) == value


def test_a_negative_number_is_a_number():
    assert read(row(gap=-1.5))[0]["gap (1)"] == "-1.5"


def test_the_unknown_is_empty_and_never_zero():
    found = read(row())[0]
    assert all(found[column.heading] == "" for column in COLUMNS if column.heading.endswith(")"))


def test_days_are_iso_and_lists_have_spaces_between():
    found = read(row(hazards=["shock", "fire"]))[0]
    assert (found["published"], found["hazards"]) == ("2026-03-01", "shock fire")


def test_a_list_that_begins_like_a_formula_is_held_too():
    assert read(row(connectors=["=1", "usb_c"]))[0]["connectors"] == "'=1 usb_c"
