"""T(40 °C) = T + (40 − T_a): 92 °C on a bench of 25 °C is 107 °C.

A published report of a certified adapter, 12 V 2.5 A at 90 V (TÜV 50250100 001, table 4.5, air of
27.2 °C): controller with its switch 91.4 °C.
"""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.silicon_temperatures import silicon_temperatures
from tests.engine.make import NAN
from tests.engine.rules.ask import checks


def check(switch=70.0, rectifier=72.0, air=25.0, load=18.0, claims=(18.0,)):
    return silicon_temperatures(air, load, switch, rectifier, claims)


def test_a_cool_unit_at_its_claimed_power_is_within_limits():
    found = check()
    assert found.outcome == CONSISTENT and "at the claimed power" in found.sentence


def test_parts_are_shifted_to_40_degrees():
    # 92 + 15 = 107.
    assert check(switch=92.0).numbers["primary switch"] == pytest.approx(107.0)


# 110 °C at 40 °C is 95 °C on the bench; 150 ± 3 °C counts as read, before any correction.
@pytest.mark.parametrize("at, outcome", [
    (95.0, CONSISTENT), (96.0, CANNOT_TELL), (152.0, CANNOT_TELL), (154.0, INCONSISTENT)])
def test_each_part_has_its_limits(at, outcome):
    assert check(switch=at, rectifier=NAN).outcome == outcome
    assert check(switch=NAN, rectifier=at).outcome == outcome


def test_a_limit_that_is_passed_only_in_the_warmest_room_contradicts_nothing():
    # 140 °C at 25 °C, 155 °C at 40 °C: above 153 °C there, not on the bench.
    assert check(switch=140.0).outcome == CANNOT_TELL


def test_the_published_report_of_a_certified_adapter_is_not_held_against_it():
    found = check(switch=91.4, rectifier=NAN, air=27.2, load=30.0, claims=(30.0,))
    assert found.outcome == CONSISTENT
    assert found.numbers["primary switch"] == pytest.approx(104.2)


@pytest.mark.parametrize("load, hot, outcome", [
    (9.0, False, CANNOT_TELL), (NAN, False, CANNOT_TELL), (17.5, False, CONSISTENT),
    (30.0, False, CONSISTENT), (9.0, True, INCONSISTENT), (NAN, True, CANNOT_TELL),
    (30.0, True, CANNOT_TELL)])
def test_the_load_decides_what_a_temperature_says(load, hot, outcome):
    assert check(switch=170.0 if hot else 70.0, load=load).outcome == outcome


def test_without_the_temperature_of_the_air_only_what_is_too_hot_anyway_counts():
    assert check(air=NAN).outcome == CANNOT_TELL
    assert check(switch=170.0, air=NAN).outcome == INCONSISTENT
    assert "air was not recorded" in check(air=NAN).sentence


def test_air_above_40_degrees_is_corrected_downwards():
    # 155 °C in air of 50 °C is 145 °C at 40 °C.
    assert check(switch=155.0, air=50.0).outcome == CANNOT_TELL


def test_without_a_temperature_of_a_part_there_is_nothing_to_check():
    assert check(switch=NAN, rectifier=NAN) is None


def test_what_is_too_hot_is_named():
    assert "above 150 °C: output rectifier" in check(rectifier=170.0).sentence


def test_the_largest_claim_counts():
    seen = [("ambient_temperature", 25.0, 0.5), ("temperature_load", 10.0, 0.1),
            ("switch_temperature", 55.0, 1.5)]
    for claims, outcome in (([(5.0, 2.0, 10.0)], CONSISTENT),
                            ([(5.0, 2.0, 10.0), (9.0, 2.0, 18.0)], CANNOT_TELL)):
        done = checks(silicon_temperatures, seen, claims)
        assert [each["outcome"] for each in done] == [outcome]
