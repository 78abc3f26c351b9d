"""T(40 °C) = T + (40 − T_a): 92 °C on a bench of 25 °C is 107 °C; the case is not shifted.

A published report of a certified adapter, 12 V 2.5 A at 90 V (TÜV 50250100 001, table 4.5, air of
27.2 °C): bulk capacitor 97.6 °C, transformer winding 103.3 °C, controller 91.4 °C, case 79.6 °C.
"""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.temperatures_at_rated_ambient import (
    temperatures_at_rated_ambient,
)
from tests.engine.make import NAN
from tests.engine.rules.ask import checks

COOL = {"transformer": 60.0, "capacitor": 55.0, "switch": 70.0, "rectifier": 72.0, "case": 52.0}


def check(air=25.0, load=18.0, claims=(18.0,), **parts):
    return temperatures_at_rated_ambient(
        air, load, *((COOL | parts)[name] for name in COOL), claims)


def only(name, at, air=25.0, load=18.0):
    return check(air, load, **(dict.fromkeys(COOL, NAN) | {name: at}))


def test_a_cool_unit_at_its_claimed_power_is_within_limits():
    found = check()
    assert found.outcome == CONSISTENT and "at the claimed power" in found.sentence


def test_parts_are_shifted_to_40_degrees_and_the_case_is_not():
    # 92 + 15 = 107; the case stays.
    numbers = check(transformer=92.0).numbers
    assert numbers["transformer"] == pytest.approx(107.0)
    assert (numbers["bulk capacitor"], numbers["case"]) == (70.0, 52.0)


@pytest.mark.parametrize("name, at, outcome", [
    ("capacitor", 70.0, CONSISTENT), ("capacitor", 70.5, CANNOT_TELL),     # 85 °C at 40 °C
    ("capacitor", 107.9, CANNOT_TELL), ("capacitor", 108.1, INCONSISTENT),  # 105 ± 3 °C as read
    ("transformer", 90.0, CONSISTENT), ("transformer", 96.0, CANNOT_TELL),
    ("transformer", 144.0, INCONSISTENT), ("switch", 96.0, CANNOT_TELL),
    ("switch", 154.0, INCONSISTENT), ("rectifier", 95.0, CONSISTENT),
    ("rectifier", 154.0, INCONSISTENT), ("case", 77.0, CONSISTENT), ("case", 78.0, CANNOT_TELL),
    ("case", 97.9, CANNOT_TELL), ("case", 98.1, INCONSISTENT)])
def test_each_part_has_its_limits(name, at, outcome):
    assert only(name, at).outcome == outcome


def test_a_winding_is_held_to_the_growth_of_its_copper():
    # 91 °C at 25 °C: rise 66 K; (40·325.5 + 234.5·66)/259.5 = 109.8 °C. 92 °C: 110.9 °C, above
    # 110, though 92 + 15 = 107.
    assert only("transformer", 91.0).outcome == CONSISTENT
    assert only("transformer", 92.0).outcome == CANNOT_TELL


def test_a_limit_that_is_passed_only_in_the_warmest_room_contradicts_nothing():
    # 100 °C at 25 °C, 115 °C at 40 °C: above 105 °C there, not on the bench.
    assert only("capacitor", 100.0).outcome == CANNOT_TELL


def test_the_published_report_of_a_certified_adapter_is_not_held_against_it():
    found = check(27.2, 30.0, (30.0,), transformer=103.3, capacitor=97.6, switch=91.4,
                  rectifier=NAN, case=79.6)
    assert found.outcome == CANNOT_TELL
    assert found.numbers["bulk capacitor"] == pytest.approx(110.4)


@pytest.mark.parametrize("air, at, outcome", [
    (35.0, 84.0, CANNOT_TELL),      # 74 °C at 25 °C: perhaps within
    (15.0, 70.0, CANNOT_TELL),      # 80 °C at 25 °C: perhaps not
    (35.0, 105.0, CANNOT_TELL), (35.0, 109.0, INCONSISTENT)])
def test_a_case_in_another_room_is_judged_only_where_both_readings_agree(air, at, outcome):
    assert only("case", at, air).outcome == outcome


@pytest.mark.parametrize("load, hot, outcome", [
    (9.0, False, CANNOT_TELL), (NAN, False, CANNOT_TELL), (17.5, False, CONSISTENT),
    (30.0, False, CONSISTENT), (9.0, True, INCONSISTENT), (NAN, True, CANNOT_TELL),
    (30.0, True, CANNOT_TELL)])
def test_the_load_decides_what_a_temperature_says(load, hot, outcome):
    assert check(load=load, capacitor=120.0 if hot else 55.0).outcome == outcome


def test_without_the_temperature_of_the_air_only_what_is_too_hot_anyway_counts():
    assert check(air=NAN).outcome == CANNOT_TELL
    assert only("capacitor", 120.0, air=NAN).outcome == INCONSISTENT
    assert only("case", 112.0, air=NAN).outcome == CANNOT_TELL     # 97 °C if the room had 40 °C
    assert "air was not recorded" in check(air=NAN).sentence


def test_air_above_40_degrees_is_corrected_downwards():
    # 112 °C in air of 50 °C is 102 °C at 40 °C.
    assert only("capacitor", 112.0, air=50.0).outcome == CANNOT_TELL


def test_without_a_temperature_of_a_part_there_is_nothing_to_check():
    assert only("case", NAN) is None


def test_what_is_too_hot_is_named_with_its_limit():
    assert "bulk capacitor (105 °C)" in only("capacitor", 130.0).sentence


def test_the_largest_claim_counts():
    seen = [("ambient_temperature", 25.0, 0.5), ("temperature_load", 10.0, 0.1),
            ("bulk_capacitor_temperature", 55.0, 1.5)]
    for claims, outcome in (([(5.0, 2.0, 10.0)], CONSISTENT),
                            ([(5.0, 2.0, 10.0), (9.0, 2.0, 18.0)], CANNOT_TELL)):
        done = checks(temperatures_at_rated_ambient, seen, claims)
        assert [each["outcome"] for each in done] == [outcome]
