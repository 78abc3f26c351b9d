"""Lines read cell by cell, where they are not plain numbers."""
import numpy as np
import pytest

from teardowns.logs.clock_times import seconds_of
from teardowns.logs.layout import LogColumn
from teardowns.logs.rows import read_rows
from tests.logs.reading import AMPERES, TIME, VOLTS, laid_out, refused


def with_clock(order):
    return laid_out(columns=(TIME, VOLTS), time_style="clock", date_order=order)


def test_rows_tell_the_line_that_they_stand_in():
    lines, (time, volts, _) = read_rows('\n0,5.1,\n , ,\n"1","5.2",1\n', 10, laid_out())
    assert lines.tolist() == [11, 13]
    assert (time.tolist(), volts.tolist()) == ([0.0, 1.0], [5.1, 5.2])


def test_without_a_column_of_time_a_row_of_blanks_still_counts():
    layout = laid_out(columns=(LogColumn(0, "U", "output_voltage"), LogColumn(1, "I")),
                      time_style="interval", interval=1.0)
    lines, (volts,) = read_rows("5.1,1\n,\n5.2,1\n", 1, layout)
    assert lines.tolist() == [1, 2, 3]
    assert np.array_equal(volts, [5.1, np.nan, 5.2], equal_nan=True)


@pytest.mark.parametrize("cell", [
    "14:03:59", "14:03:59.25", "14:03:59,25", "1.3.2026 14:03:59.5", "02:03:59 PM", "14:03",
    "2026-03-01T14:03:59Z", "2026-03-01T14:03:59+05:30", "2026-03-01T14:03:30+0530",
    "2026-03-01 14:03", "100:03:59"])
def test_the_quick_reading_of_a_clock_is_the_careful_one(cell):
    order = "ymd" if cell.startswith("2026") else "dmy"
    _, (time, _) = read_rows(f'"{cell}",5\n"{cell}",5\n', 1, with_clock(order))
    assert time.tolist() == pytest.approx([seconds_of(cell, order)] * 2, abs=1e-9)


def test_a_clock_that_does_not_exist_is_refused():
    for cell in ("14:03:60", "14:63:00", "32.1.2026 14:03:59"):
        with refused("clock_time", 2, 1):
            read_rows(f"14:03:00,5\n{cell},5\n", 1, with_clock("dmy"))


def test_what_is_not_used_is_not_judged():
    layout = laid_out(columns=(TIME, LogColumn(1, "Remark"), AMPERES))
    _, (_, amperes) = read_rows("0,=1+1,1\n1,NaN,2\n", 1, layout)
    assert amperes.tolist() == [1.0, 2.0]


def test_a_line_above_a_torn_one_is_refused_first():
    with refused("text", 1, 2):
        read_rows("0,x,1\n1,5\n", 1, laid_out())
