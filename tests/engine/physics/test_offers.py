"""Layouts: USB PD revision 3.2, version 1.1, tables 6.14 and 6.15; products worked out by hand."""
from math import isnan

import pytest

from teardowns.engine.physics.offers import (
    current_at,
    described,
    design_power,
    most_power,
    power_of,
)
from teardowns.engine.physics.power_objects import (
    Adjustable,
    AdjustableStandard,
    Battery,
    Fixed,
    Programmable,
    Variable,
    decode,
    read_list,
)

# Two lists found in public logs, of 100 W and 65 W.
HUNDRED = read_list([0x0A01912C, 0x0002D12C, 0x0003C12C, 0x0004B12C, 0x000641F4, 0xC1A42164])
SIXTY_FIVE = read_list([0x0A01912C, 0x0002D12C, 0x0003C1F4, 0x0004B1B1, 0x00064145])
NAN = float("nan")


@pytest.mark.parametrize("capabilities, watts", [(HUNDRED, 100), (SIXTY_FIVE, 65)])
def test_the_power_of_a_published_list(capabilities, watts):
    assert design_power(capabilities.objects) == watts


def test_only_fixed_supplies_make_the_design_power():
    assert design_power([Fixed(5, 3), Programmable(3.3, 21, 5)]) == 15
    assert isnan(design_power([Programmable(3.3, 21, 5)]))


def test_a_programmable_supply_counts_at_its_nominal_voltage():
    # 21 V and 5 A are 105 W; the range to 21 V is the 20 V one: 100 W
    assert power_of(Programmable(3.3, 21, 5)) == 100
    assert power_of(Programmable(3.3, 11, 3)) == 27
    assert power_of(Programmable(3.3, 5.9, 3)) == 15


@pytest.mark.parametrize("item, watts", [
    (Variable(5, 12, 2), 24), (Battery(5, 12, 15), 15), (Adjustable(15, 28, 140), 140),
    (AdjustableStandard(3, 3.25), 65), (AdjustableStandard(3, 0), 45), (Fixed(9, 2.22), 19.98)])
def test_the_power_of_an_object(item, watts):
    assert power_of(item) == pytest.approx(watts)


def test_an_empty_list_offers_nothing():
    assert isnan(most_power([]))
    assert isnan(design_power([]))
    assert isnan(current_at([], 5.0))


@pytest.mark.parametrize("volts, amperes", [(5, 5), (9, 5), (12, 5), (15, 5), (20, 5), (21, 5)])
def test_a_programmable_supply_offers_its_current_over_its_range(volts, amperes):
    assert current_at(HUNDRED.objects, volts) == amperes


@pytest.mark.parametrize("volts, amperes", [(5, 3), (9, 3), (12, 5), (15, 4.33), (20, 3.25)])
def test_fixed_supplies_offer_their_own(volts, amperes):
    assert current_at(SIXTY_FIVE.objects, volts) == amperes


@pytest.mark.parametrize("volts", [3.3, 7.0, 18.0, 28.0, NAN])
def test_between_fixed_supplies_nothing_is_offered(volts):
    assert isnan(current_at(SIXTY_FIVE.objects, volts))


def test_a_power_limited_range_gives_less_where_its_power_ends():
    # fixed 9 V 2 A: 18 W; at 11 V that is 1.636 A
    items = [Fixed(5, 3), Fixed(9, 2), Programmable(5.5, 11, 2, power_limited=True)]
    assert current_at(items, 11) == pytest.approx(18 / 11)
    assert current_at(items, 8) == 2


def test_adjustable_supplies_follow_their_power_and_their_two_currents():
    assert current_at([Adjustable(15, 28, 140)], 28) == 5
    assert current_at([Adjustable(15, 48, 140)], 40) == 3.5
    assert [current_at([AdjustableStandard(3, 2.25)], volts) for volts in (9, 15, 18)] == [
        3, 3, 2.25]
    assert isnan(current_at([AdjustableStandard(3, 0)], 18))


def test_the_voltage_of_a_battery_or_a_variable_supply_cannot_be_chosen():
    assert isnan(current_at([Battery(5, 12, 15), Variable(5, 12, 2)], 9))


@pytest.mark.parametrize("word, words", [
    (0x0004B1B1, "15 V 4.33 A"), (0xC9A43741, "5.5 to 21 V 3.25 A, power-limited"),
    (0xC1A42164, "3.3 to 21 V 5 A"), (0x8F0190C8, "5 to 12 V 2 A, variable"),
    (0x4F01903C, "5 to 12 V 15 W, battery"), (0xD230968C, "15 to 28 V 140 W, adjustable"),
    (0xE004B145, "9 to 15 V 3 A, 3.25 A to 20 V, adjustable"),
])
def test_an_object_in_words(word, words):
    assert described(decode(word, first=False)).replace("\u202f", " ") == words
