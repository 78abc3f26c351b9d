"""Units with a part beside the power that its data sheet gives."""
from dataclasses import dataclass

import pytest

from teardowns.presenting.part_powers import by_unit, comparisons, power_cells
from tests.presenting.part_units import End, Unit

WIDE, HIGH = "controller_power_wide", "controller_power_high"


@dataclass(frozen=True)
class Limit:
    quantity: str
    value: float


def wide(*units, watts=12.0):
    found, = comparisons([Limit(WIDE, watts)], units)
    return found


def test_without_a_cited_power_or_a_unit_there_is_nothing_to_compare():
    assert comparisons([Limit("switch_voltage_rating", 700.0)], [Unit()]) == []
    assert comparisons([Limit(WIDE, 12.0)], []) == []


def test_each_supply_that_is_cited_is_compared_at_its_own_end_of_the_mains():
    found = comparisons([Limit(HIGH, 20.0), Limit(WIDE, 12.0)], [Unit()])
    assert [one.name for one in found] == ["12\u202fW for 85 to 265 V", "20\u202fW for 230 V"]
    # 15 W / 12 W at 100 V, 18 W / 20 W at 240 V
    assert "× 1.2" in found[0].says[2] and "× 0.90" in found[1].says[2]


def test_measured_and_worked_out_units_stay_apart():
    found = wide(Unit(), Unit(pk=2, measured=11.4, measured_mains=115.0))
    assert found.says[1] == ("Measured on a load there: 1 unit, 11.4\u202fW, × 0.95 the cited "
                             "power.")
    assert found.says[2].startswith("Not measured, worked out from the parts: 1 unit, 15.0")
    assert found.drawing.count('class="pt"') == found.drawing.count('class="pt-o"') == 1


def test_what_rests_on_the_cited_power_is_said_not_to_test_it():
    assert "so they do not test it" in wide(Unit()).says[2]
    assert wide(Unit(measured=11.4, measured_mains=115.0)).says[2].endswith(": none.")


@pytest.mark.parametrize("mains", [230.0, None])
def test_a_load_at_other_or_unstated_mains_measures_nothing_here(mains):
    found = wide(Unit(measured=11.4, measured_mains=mains))
    assert found.says[1] == "Measured on a load there: none."


def test_a_unit_for_230_volts_alone_is_not_held_against_the_wide_range():
    only_high = Unit(ends=(End(220.0, 15.0, 18.0, 21.0), End(240.0, 15.0, 19.0, 21.0)))
    assert wide(only_high, Unit(pk=2)).says[0].startswith("1 unit with it is")
    assert by_unit([Limit(WIDE, 12.0)], [only_high])[1].over == ""


def test_a_unit_whose_plate_states_no_mains_is_compared_with_nothing():
    assumed = Unit(ends=(End(100.0, 13.0, 15.0, 17.0, is_assumed=True),))
    found = wide(assumed)
    assert found.drawing == ""
    assert found.says == ["No unit with it is known to be for mains below 180\u202fV."]
    assert power_cells(assumed, {"controller_power_wide": [12.0]}).over == ""
    assert power_cells(assumed, {}).worked_out == ["13.0 to 17.0\u202fW at 100\u202fV, assumed"]


def test_claims_above_the_cited_power_are_counted_and_named():
    units = [Unit(), Unit(pk=2, claimed=12.0), Unit(pk=3, claimed=None)]
    assert "of which 2 state a power: 1 more than 12\u202fW." in wide(*units).says[0]
    cells = by_unit([Limit(WIDE, 12.0)], units)
    assert cells[1].over == "× 3.8 the cited 12\u202fW"           # 45 / 12 = 3.75
    assert cells[2].over == cells[3].over == ""


def test_a_cited_power_of_nothing_is_none():
    assert comparisons([Limit(WIDE, 0.0)], [Unit()]) == []


def test_sources_that_differ_are_both_drawn_and_the_least_counts():
    found, = comparisons([Limit(WIDE, 15.0), Limit(WIDE, 12.0)], [Unit()])
    assert found.name.startswith("12\u202fW or 15\u202fW") and "Sources differ" in found.says[0]
    assert found.drawing.count('class="req"') == 2


def test_the_cells_of_a_unit_say_at_which_mains():
    cells = power_cells(Unit(measured=11.4, measured_mains=230.0), {})
    assert cells.measured == "11.4\u202fW at 230\u202fV"
    assert cells.worked_out == ["13.0 to 17.0\u202fW at 100\u202fV",
                                "15.0 to 21.0\u202fW at 240\u202fV"]
    assert power_cells(Unit(measured=11.4), {}).measured.endswith("mains not stated")


def test_what_is_not_known_is_said():
    cells = power_cells(Unit(ends=()), {})
    assert (cells.measured, cells.worked_out) == ("not measured", ["unknown"])


def test_each_points_to_the_method():
    assert wide(Unit()).working.startswith("/method/#")
