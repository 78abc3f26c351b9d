"""A bar on a terminal; elsewhere a line each tenth."""
from io import StringIO

from core.management.progress import Bar


class Terminal(StringIO):
    def isatty(self):
        return True


def test_elsewhere_each_tenth_is_a_line():
    out = StringIO()
    bar = Bar(out)
    for done in range(1, 1001):
        bar("Checked", done, 1000)
    lines = out.getvalue().splitlines()
    assert len(lines) == 11 and lines[-1] == "Checked: 1000 of 1000"


def test_on_a_terminal_one_line_is_drawn_over_and_ends_full():
    out = Terminal()
    bar = Bar(out)
    for done in (1, 2, 4):
        bar("Checked", done, 4)
    assert out.getvalue().endswith(f"Checked [{'#' * 30}] 4 of 4\n")
    assert out.getvalue().count("\n") == 1


def test_nothing_to_do_divides_by_nothing():
    Bar(out := Terminal())("Checked", 0, 0)
    assert "0 of 0" in out.getvalue()
