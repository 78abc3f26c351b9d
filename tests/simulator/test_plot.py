"""The reliability picture: every filled bin once, on the diagonal where p is right."""
import xml.etree.ElementTree as tree

from .plot import MARGIN, SIZE, bars, svg

EVEN = [(0, float("nan"), float("nan")), (400, 0.25, 0.25), (300, 0.75, 0.5)]


def test_an_empty_bin_has_no_line_of_text():
    assert len(list(bars(EVEN))) == 2


def test_text_shows_the_share_that_is_met():
    line = list(bars(EVEN))[1].split("  ")[-1]
    assert line.count("#") == 20            # 0.5 of 40 places
    assert line.index("|") == 30            # 0.75 of them


def test_a_right_probability_lies_on_the_diagonal():
    dots = tree.fromstring(svg({"one": EVEN})).findall("{*}circle")
    assert len(dots) == 2
    x, y = (float(dots[0].get(name)) - MARGIN for name in ("cx", "cy"))
    assert x == SIZE - y == 0.25 * SIZE


def test_every_population_is_named():
    assert "usual" in svg({"usual": EVEN, "others": EVEN})
    assert "others" in svg({"usual": EVEN, "others": EVEN})
