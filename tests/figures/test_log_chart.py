import re

import numpy as np
import pytest

from teardowns.figures.log_chart import LogChart, Marking, Panel, Trace, log_chart
from teardowns.logs.windows import Window

from .drawing import of_class, parsed, share, words


def trace(values, label="Output voltage"):
    return Trace(label, Window(np.arange(len(values), dtype=float), np.array(values, float)))


def drawn(*panels, markings=(), end=4.0):
    panels = panels or (Panel("Output voltage", "V", (trace([5, 5, 4, 5, 5]),)),)
    return parsed(log_chart(LogChart("log", "A log", "Says.", 0.0, end, panels, markings)))


def test_a_panel_says_what_it_shows_and_in_which_unit():
    assert "Output voltage, V" in words(drawn())


def test_time_has_its_unit_once():
    ticks = [node.text for node in of_class(drawn(), "axis-t") if node.text.endswith("\u202fs")]
    assert ticks == ["4\u202fs"]


def test_a_blank_breaks_the_line():
    tree = drawn(Panel("Output voltage", "V", (trace([5, 5, np.nan, 5, 5]),)))
    (line,) = of_class(tree, "log-line")
    assert line.get("d").count("M") == 2


def test_lines_of_one_panel_differ_without_colour_and_have_a_legend():
    tree = drawn(Panel("Temperature", "°C", (trace([30, 31], "Core"), trace([25, 25], "Air"))))
    dashes = {line.get("stroke-dasharray") for line in of_class(tree, "log-line")}
    assert len(dashes) == 2 and "Core" in words(tree) and "Air" in words(tree)


def test_a_result_stands_over_the_span_that_it_was_read_from():
    tree = drawn(markings=(Marking("drop", 1.0, 3.0),))
    (bar,) = of_class(tree, "log-span")
    assert (share(bar, "x1"), share(bar, "x2")) == (25, 75)        # of 0 to 4 s
    assert [node.text for node in of_class(tree, "log-letter")] == ["A"]


def test_one_instant_is_marked_once():
    tree = drawn(markings=(Marking("trip", 2.0, 2.0),))
    assert [share(node) for node in of_class(tree, "log-end")] == [50]


def test_a_level_that_never_changes_can_be_drawn():
    (line,) = of_class(drawn(Panel("Ambient", "°C", (trace([0, 0]),))), "log-line")
    assert line.get("d")


@pytest.mark.parametrize("values", [[], [5], [np.nan, np.nan]])
def test_a_log_that_shows_little_can_be_drawn(values):
    assert drawn(Panel("Output voltage", "V", (trace(values),)), end=0.0) is not None


def test_labels_of_a_late_and_short_span_fit_the_narrowest_screen():
    chart = LogChart("log", "", "", 7200.0, 7200.005, (), ())
    ticks = of_class(parsed(log_chart(chart)), "axis-t")
    assert sum(len(tick.text) for tick in ticks) < 40       # 13 px type on 288 px


def test_it_can_stand_alone():
    markup = log_chart(LogChart("log", "A <log>", "Says.", 0.0, 1.0, ()), width=960)
    assert markup.startswith('<svg xmlns="http://www.w3.org/2000/svg"')
    assert 'width="960"' in markup and "A &lt;log&gt;" in markup


def test_it_carries_no_style_of_its_own():
    chart = LogChart("log", "", "", 0.0, 4.0, (Panel("U", "V", (trace([1, 2]),)),),
                     (Marking("a", 1, 2),))
    assert not re.search(r"\bstyle=|<style|<script", log_chart(chart))
