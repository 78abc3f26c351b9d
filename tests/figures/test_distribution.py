"""How one quantity is spread."""
import re
from dataclasses import replace

from teardowns.figures.axes import log_axis
from teardowns.figures.distribution import Distribution, Panel, Quarters, distribution
from teardowns.figures.plane import Point

AXIS = log_axis([1, 100])
NONE = Quarters(None, None, None, None, None)
DOTS = [Point(2, 0, f"/units/{n}/", f"Unit {n}") for n in range(3)]
FEW = Panel("per watt claimed, 3 units", (0, 3), ((), DOTS), (), NONE)


def drawn(*panels, **more):
    return distribution(Distribution(AXIS, "µF/W", panels, **more))


def test_units_of_one_bin_are_stacked_each_with_its_link():
    found = drawn(FEW)
    assert found.count("<a ") == 3 and set(re.findall(r'cx="([\d.]+)%"', found)) == {"75.00"}
    assert len(set(re.findall(r'cy="([\d.]+)"', found))) == 3


def test_many_units_are_bars_and_the_ends_are_points():
    found = drawn(Panel("800 units", (200, 600), (), DOTS[:2], NONE))
    heights = [float(h) for h in re.findall(r'class="bar"[^>]*height="([\d.]+)"', found)]
    assert heights == [50.0, 150.0] and found.count("<a ") == 2


def test_a_high_stack_stays_inside_of_its_panel():
    tall = replace(FEW, counts=(60, 0), stacks=(DOTS * 20, ()))
    levels = [float(y) for y in re.findall(r'cy="([\d.]+)"', drawn(tall))]
    assert min(levels) > 24 and max(levels) < 24 + 150


def test_the_quarters_are_drawn_where_there_are_units_enough():
    assert 'class="cap"' not in drawn(FEW)
    quarters = Quarters(None, 2.0, 3.0, 4.0, None)
    some = drawn(replace(FEW, quarters=quarters))
    assert 'class="cap"' in some and 'class="med"' in some and 'class="whole"' not in some
    assert 'class="whole"' in drawn(replace(FEW, quarters=replace(quarters, low=1.0, high=9.0)))


def test_values_that_matter_are_named_on_lines_of_their_own():
    found = drawn(FEW, marks=((10.0, "10 W cited"), (11.0, "11 W cited")))
    assert found.count('class="req"') == 2 and ">10 W cited<" in found
    assert len(set(re.findall(r'y="([\d.]+)"[^>]*class="req-t"', found))) == 2
    assert 'class="req"' not in drawn(FEW)


def test_this_unit_is_marked_in_each_panel_that_knows_it():
    assert drawn(FEW, replace(FEW, this=3.0)).count("this unit") == 1
