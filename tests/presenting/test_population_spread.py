"""Bulk capacitance per watt and insulation margins, in picture, words and rows."""
import numpy as np

from teardowns.presenting.population_spread import (
    bulk_picture,
    bulk_spreads,
    margin_picture,
    margin_spreads,
)
from tests.presenting.population import NAMES, everybody, numbers


def of_bulk(found, this=None):
    return bulk_picture(bulk_spreads(found, everybody(found), this), found, NAMES, this)


def of_margins(margins, this=None):
    found = numbers(insulation_margin=margins)
    return margin_picture(margin_spreads(found, everybody(found), this), found, NAMES, this)


def test_capacitance_is_told_per_watt_claimed_and_per_watt_measured():
    found = numbers(bulk_capacitance=[22e-6, 22e-6], claimed_power=[20, 20],
                    measured_power=[11, np.nan])
    # 22 µF / 20 W and 22 µF / 11 W
    assert of_bulk(found).cells(0) == ["22.0\u202fµF", "1.10\u202fµF/W", "2.00\u202fµF/W"]
    assert of_bulk(found).cells(1)[2] == "not known"


def test_few_units_are_not_told_as_a_spread():
    found = numbers(bulk_capacitance=[22e-6], claimed_power=[20], measured_power=[np.nan])
    assert of_bulk(found).says == [
        "Per watt claimed: 1 unit, too few to say how they are spread.",
        "Per watt measured: no unit has what it takes."]


def test_the_middle_half_is_told_of_many():
    # Eleven units of 1.0, 1.1 … 2.0 µF/W: the third from either end, 1.25 and 1.75; middle 1.5.
    found = numbers(bulk_capacitance=np.linspace(1e-5, 2e-5, 11), claimed_power=[10.0] * 11)
    assert of_bulk(found).says[0] == ("Per watt claimed: half of 11 units lie between 1.25 and "
                                      "1.75; the median is 1.50\u202fµF/W.")


def test_the_tightest_units_come_first_and_those_below_one_are_counted():
    found = numbers(insulation_margin=[1.4, 0.8, np.nan, 1.0])
    spreads = margin_spreads(found, everybody(found), None)
    assert spreads.rows.tolist() == [1, 3, 0]
    picture = margin_picture(spreads, found, NAMES, None)
    assert picture.says[0].startswith("Of 3 units, 1 has a distance shorter than")
    assert picture.cells(1) == ["0.800", "shorter"]
    assert picture.cells(3) == ["1.00", "not shorter"]


def test_a_margin_of_nothing_stands_at_the_left_end_and_is_said_to():
    picture = of_margins([0.0, 0.9, 1.5])
    assert picture.drawing.count("<a ") == 3
    assert "1 unit lies at 0 or below" in picture.says[1]


def test_the_requirement_is_on_the_scale_though_all_margins_are_wide():
    drawing = of_margins([3.0, 4.0]).drawing
    assert 'class="req"' in drawing and ">requirement<" in drawing


def test_many_units_are_bars_with_the_ends_as_points():
    picture = of_margins(np.linspace(0.5, 3, 400))
    assert 'class="bar"' in picture.drawing and picture.drawing.count("<a ") == 30
    assert picture.legend[0].mark == "bar"


def test_this_unit_is_marked_where_it_is_known():
    assert "this unit" in of_margins([0.9, 1.5], this=0).drawing
    assert "this unit" not in of_margins([np.nan, 1.5], this=0).drawing
