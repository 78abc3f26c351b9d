"""Published limits speak for the part that they belong to, and only where it is one."""
import pytest

from tests.exchange.observing.seen import seen, values


def library(marking, *limits):
    return {"marking": marking, "limits": [
        {"quantity": code, "value": value, "citation": citation}
        for code, value, citation in limits]}


def board(*roles_and_parts, parts):
    return {"components": [{"role": role, "part": part} for role, part in roles_and_parts],
            "parts": parts}


CHIP = library("QX2204", ("controller_supply_low", 8.0, "table 2"),
               ("controller_supply_high", 28.0, "table 2"),
               ("current_sense_threshold", 0.8, "table 3"), ("maximum_duty", 0.75, "table 3"),
               ("switching_frequency", 65e3, "table 3"), ("switch_voltage_rating", 700.0, "p. 1"),
               ("primary_decodes_requests", 1.0, "p. 1"))


@pytest.mark.parametrize(("code", "value"), [
    ("controller_supply_low", 8.0), ("controller_supply_high", 28.0),
    ("current_sense_threshold", 0.8), ("maximum_duty", 0.75), ("switching_frequency", 65e3),
    ("switch_voltage_rating", 700.0), ("primary_decodes_requests", 1.0)])
def test_what_is_published_of_the_controller_is_known(code, value):
    assert values(code, **board(("primary_controller", "QX2204"), parts=[CHIP])) == [value]
    assert values(code, **board(("protocol_controller", "QX2204"), parts=[CHIP])) == []


def test_a_data_sheet_s_typical_frequency_is_wide():
    (one,) = seen("switching_frequency", **board(("primary_controller", "QX2204"), parts=[CHIP]))
    assert one.u == pytest.approx(0.07 * 65e3)          # ± 7 %, usual of data sheets, from memory


def test_a_switch_of_its_own_comes_before_one_in_the_controller():
    rows = board(("primary_controller", "QX2204"), ("primary_switch", "KN650"), parts=[
        CHIP, library("KN650", ("switch_voltage_rating", 650.0, "table 1"))])
    assert values("switch_voltage_rating", **rows) == [650.0]
    rows["components"][1] |= {"state": "not_readable"}
    assert values("switch_voltage_rating", **rows) == []


def test_two_controllers_that_differ_decide_nothing_but_the_lowest_power():
    other = library("QX9", ("maximum_duty", 0.5, "table 3"), ("controller_power_wide", 30.0, "t"))
    own = library("QX8", ("maximum_duty", 0.75, "table 3"), ("controller_power_wide", 20.0, "t"))
    rows = board(("primary_controller", "QX8"), ("primary_controller", "QX9"), parts=[own, other])
    assert values("maximum_duty", **rows) == []
    assert values("controller_power_wide", **rows) == [20.0, 30.0]


def test_two_sheets_that_differ_decide_nothing():
    chip = library("QX2204", ("maximum_duty", 0.75, "sheet A"), ("maximum_duty", 0.5, "sheet B"))
    assert values("maximum_duty", **board(("primary_controller", "QX2204"), parts=[chip])) == []


def test_a_core_s_material_may_be_published_too():
    core = library("KF-95", ("saturation_flux_density", 0.41, "table 1"))
    assert values("saturation_flux_density", **board(("core", "KF-95"), parts=[core])) == [0.41]
