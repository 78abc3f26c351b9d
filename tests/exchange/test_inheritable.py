"""What sister boards may lend is a short list, and what they may not is not on it."""
import pytest

from teardowns.engine.quantities import GROUPS, QUANTITIES
from teardowns.engine.rulebook import load
from teardowns.exchange.inheritable import INHERITABLE

TRIED = ("sustained_power", "failed_power", "peak_power", "overcurrent_point", "offered_voltage",
         "efficiency", "output_voltage_no_load", "input_power_full_load", "bulk_capacitance",
         "case_temperature", "transformer_temperature", "electric_strength_withstood")


def test_every_code_is_a_quantity():
    assert INHERITABLE.keys() <= QUANTITIES.keys()


@pytest.mark.parametrize("code", TRIED)
def test_what_was_tried_on_a_specimen_is_not_lent(code):
    assert code not in INHERITABLE


def test_no_distance_and_no_flag_is_lent():
    """Workmanship decides a distance; whether a part is there is seen on each board alone."""
    assert not {"clearance", "creepage", "insulation_thickness", "tape_layers"} & INHERITABLE.keys()
    assert not [code for code in INHERITABLE if QUANTITIES[code].is_flag]


def test_nothing_of_the_plug_or_the_plate_is_lent():
    outside = {quantity.code for name in ("plug", "plate") for quantity in GROUPS.get(name, ())}
    assert "rated_voltage_low" in outside and not outside & INHERITABLE.keys()


def test_a_part_that_makers_change_is_lent_with_more_doubt_than_the_design():
    assert all(one.share >= 0.3 for one in INHERITABLE.values() if not one.is_design)
    assert all(0.05 <= one.share <= 0.1 for one in INHERITABLE.values() if one.is_design)


def test_each_is_read_by_a_rule_or_tells_the_core_s_size():
    read = {code for line in load().lines for code in line.reads}
    sizes = {"core_width", "core_height", "core_depth", "centre_leg_width",
             "bulk_capacitance_marked", "maximum_duty"}
    assert INHERITABLE.keys() <= read | sizes
