"""Which readings make a silent line speak; the rule itself is asked."""
import numpy as np
import pytest

from teardowns.engine import rulebook
from teardowns.engine.columns import DERIVED
from teardowns.engine.defaults import DEFAULTS
from teardowns.engine.effort import EFFORT
from teardowns.engine.explain import line_of
from teardowns.engine.pipeline import examine_unit
from teardowns.engine.silent_lines import WAYS, as_if_read, quickest_way, silent_lines
from tests.engine.make import WIDE, judge

BOOK = rulebook.load()
CLAIM = ((20.0, 0.75, 15.0, "usb_c"),)
HIGH = (("rated_voltage_low", 220.0, 0.0), ("rated_voltage_high", 240.0, 0.0))


def frame(observations=WIDE, on="power"):
    examined, _ = examine_unit(judge(observations, CLAIM), 0)
    return (examined.frames[0] if on == "power" else examined.voltage.frame).take([0])


def asked(observations=WIDE, reached="outside"):
    found = (one for on in ("power", "voltage")
             for one in silent_lines(getattr(BOOK, on), frame(observations, on), (), reached))
    return {one.rule.id: one for one in found}


def test_every_line_of_the_rulebook_can_be_made_to_speak():
    assert {*asked(), *asked(HIGH)} == {rule.id for rule in BOOK.lines}


@pytest.mark.parametrize("code", [c for c, item in DEFAULTS.items() if item.how == DERIVED])
def test_what_is_worked_out_has_its_ways_or_is_read_itself(code):
    assert code in WAYS or code in EFFORT


@pytest.mark.parametrize("code", WAYS)
def test_each_way_leads_to_the_quantity(code):
    rule = next(rule for rule in BOOK.power if code in rule.required)
    others = {other for each in rule.required if each != code and each in WAYS
              for other in WAYS[each][0]}
    for way in WAYS[code]:
        assert as_if_read(rule, frame(), others.union(way)) is not None


def test_the_quickest_way_is_taken():
    # The marking takes a minute, a component meter four.
    assert asked()["power/bulk_capacitor"].reads == ("bulk_capacitance_marked",)


def test_a_group_that_one_line_needs_is_asked_for_together():
    assert asked()["power/enclosure_heat"].reads == ("case_depth", "case_height", "case_width")


def test_what_is_known_already_is_not_asked_for():
    seen = (*WIDE, ("case_depth", 0.06, 1e-4), ("case_height", 0.03, 1e-4))
    assert quickest_way(BOOK["power/enclosure_heat"], frame(seen), "outside") == ("case_width",)


def test_a_line_that_speaks_already_and_one_that_is_silent_beside_it_are_not_asked_for():
    found = silent_lines(BOOK.power, frame(), {"power/mass_per_watt"}, "outside")
    assert not {"power/mass_per_watt", "power/volume_per_watt"} & {one.rule.id for one in found}


def test_a_line_that_would_stay_silent_all_the_same_is_not_asked_for():
    # The 230 V table says nothing at 100 V; a corrector takes the bulk capacitor out of the matter.
    corrected = asked((*WIDE, ("power_factor_corrector", 1.0, 0.0)))
    assert "power/controller_power_high" not in asked()
    assert "power/bulk_capacitor" not in corrected


def test_the_uncertainty_is_the_rules_own_with_that_of_a_typical_reading():
    # A fixed share of the rating, ±5 % by the rule, and a rating read off to 1 %.
    sigma = asked()["voltage/output_capacitor"].sigma
    assert sigma == pytest.approx(np.hypot(0.05, 0.01), rel=1e-3)


@pytest.mark.parametrize("rule_id", ["power/bulk_capacitor", "power/enclosure_heat", "power/fuse",
                                     "power/mass_per_watt", "power/core_window"])
def test_the_forecast_is_what_the_line_has_once_it_speaks(rule_id):
    forecast = asked()[rule_id]
    seen = ((code, EFFORT[code].typical, EFFORT[code].typical * EFFORT[code].spread)
            for code in forecast.reads)
    examined, _ = examine_unit(judge((*WIDE, *seen), CLAIM), 0)
    line, place = line_of(examined, BOOK[rule_id], "low")
    assert forecast.sigma == pytest.approx(float(line.u_ln[place]), rel=1e-9)
