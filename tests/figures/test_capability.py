from dataclasses import replace

import pytest

from teardowns.figures.axes import log_axis
from teardowns.figures.capability import Capability, capability_drawing, dimension

from .drawing import of_class, parsed, share, words

AXIS = log_axis([1.2, 180])            # 1 to 200 W
FOUND = Capability(14.6, 13.1, 16.7, [(10.0, 0.1), (14.6, 1.0), (20.0, 0.1)], "× 3.1")


def test_bar_and_ring_stand_at_the_interval_and_the_median():
    tree = parsed(capability_drawing(AXIS, FOUND, None))
    bar, = of_class(tree, "cap")
    assert share(bar, "x1") == pytest.approx(AXIS(13.1), abs=0.01)
    assert share(bar, "x2") == pytest.approx(AXIS(16.7), abs=0.01)
    assert len(of_class(tree, "med")) == 1


def test_the_distance_to_a_claim_above_is_measured_from_the_upper_end():
    tree = parsed(dimension(AXIS, FOUND, 45.0))
    line, = of_class(tree, "dim")
    assert AXIS(16.7) < share(line, "x1") < share(line, "x2") < AXIS(45.0)
    assert "× 3.1" in words(tree)


def test_the_distance_to_a_claim_far_below_is_measured_from_the_lower_end():
    tree = parsed(dimension(AXIS, FOUND, 2.0))
    line, = of_class(tree, "dim")
    assert AXIS(2.0) < share(line, "x2") < share(line, "x1") < AXIS(13.1)


@pytest.mark.parametrize("claim", [15.0, 13.0, 18.0])
def test_a_claim_inside_or_close_to_the_interval_has_no_distance(claim):
    assert dimension(AXIS, FOUND, claim) == ""


def test_a_narrow_gap_puts_the_ratio_beyond_the_claim():
    tree = parsed(dimension(AXIS, FOUND, 21.0))
    text, = tree.iter("text")
    assert not of_class(tree, "dim")
    assert share(text, "x") > AXIS(21.0) and text.get("text-anchor") == "start"


def test_a_narrow_gap_at_the_axis_end_puts_the_ratio_behind_the_interval():
    found = replace(FOUND, median=135, low=120, high=150)
    text, = parsed(dimension(AXIS, found, 180.0)).iter("text")
    assert share(text, "x") < AXIS(120) and text.get("text-anchor") == "end"


def test_a_density_outside_the_axis_draws_no_hill():
    found = replace(FOUND, density=[(0.1, 1.0), (500.0, 0.5)])
    assert not of_class(parsed(capability_drawing(AXIS, found, None)), "dens")
