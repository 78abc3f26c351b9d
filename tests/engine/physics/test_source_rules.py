"""Source power rules of USB PD 3.x: two public renderings of the table and an open-source rule
checker agree on the rows to 100 W; the rows above, and the remarks on the extended range, are from
memory. Currents are worked out by hand: power over voltage.
"""
import numpy as np
import pytest

from teardowns.engine.physics.power_objects import (
    Adjustable,
    Battery,
    CapabilityList,
    Fixed,
    Programmable,
    Variable,
    read_list,
)
from teardowns.engine.physics.source_rules import (
    examine_list,
    mandatory_current,
    mandatory_ratings,
)

NAN = float("nan")
FIVE, NINE, FIFTEEN, TWENTY = Fixed(5, 3), Fixed(9, 3), Fixed(15, 3), Fixed(20, 5)
CAPABLE = Fixed(5, 3, flags=frozenset({"EPR capable"}))


def findings(*items, departs=True):
    return [finding.sentence.replace("\u202f", " ")
            for finding in examine_list(CapabilityList(items)) if finding.departs == departs]


@pytest.mark.parametrize("watts, ratings", [
    (10, [(5, 2)]), (15, [(5, 3)]),
    (18, [(5, 3), (9, 2)]), (27, [(5, 3), (9, 3)]),
    (30, [(5, 3), (9, 3), (15, 2)]), (45, [(5, 3), (9, 3), (15, 3)]),
    # the published example of a 50 W source
    (50, [(5, 3), (9, 3), (15, 3), (20, 2.5)]),
    (65, [(5, 3), (9, 3), (15, 3), (20, 3.25)]), (100, [(5, 3), (9, 3), (15, 3), (20, 5)]),
    # from memory: the set of 100 W and what comes above it
    (140, [(5, 3), (9, 3), (15, 3), (20, 5), (28, 5)]),
    (180, [(5, 3), (9, 3), (15, 3), (20, 5), (28, 5), (36, 5)]),
    (240, [(5, 3), (9, 3), (15, 3), (20, 5), (28, 5), (36, 5), (48, 5)]),
])
def test_what_a_source_of_a_power_has_to_offer(watts, ratings):
    assert list(mandatory_ratings(watts)) == ratings


def test_12_volts_are_never_mandatory():
    assert mandatory_current(np.linspace(1, 240, 240), 12.0).max() == 0


@pytest.mark.parametrize("power, voltage", [(NAN, 5.0), (65.0, NAN)])
def test_unknown_in_unknown_out(power, voltage):
    assert np.isnan(mandatory_current(power, voltage))


def test_many_powers_are_read_as_one_by_one():
    power, voltage = np.array([10.0, 30.0, 120.0]), np.array([5.0, 15.0, 28.0])
    alone = [float(mandatory_current(p, v)) for p, v in zip(power, voltage, strict=True)]
    assert mandatory_current(power, voltage).tolist() == alone == [2.0, 2.0, 120 / 28]


def test_currents_are_rounded_down_to_the_steps_of_the_words():
    # 20 / 9 = 2.222…
    assert mandatory_ratings(20)[1] == (9, 2.22)


def test_a_source_that_rounds_within_its_row_is_not_asked_for_the_next():
    # 12 V 2.26 A = 27.12 W is named by a source of 27 W, which needs no 15 V
    assert [voltage for voltage, _ in mandatory_ratings(27.12)] == [5, 9]


@pytest.mark.parametrize("words", [
    # lists found in public logs, of 100 W and of 65 W
    (0x0A01912C, 0x0002D12C, 0x0003C12C, 0x0004B12C, 0x000641F4, 0xC1A42164),
    (0x0A01912C, 0x0002D12C, 0x0003C1F4, 0x0004B1B1, 0x00064145),
])
def test_published_lists_follow_the_rules(words):
    assert [f for f in examine_list(read_list(words)) if f.departs] == []


@pytest.mark.parametrize("watts", [7.5, 12, 18, 20, 25, 27, 30, 33, 45, 60, 65, 67, 96, 100])
def test_the_mandatory_list_of_a_power_follows_the_rules(watts):
    assert findings(*(Fixed(*rating) for rating in mandatory_ratings(watts))) == []


def test_the_first_object_is_5_volts():
    assert findings(NINE, FIVE)[0].startswith("The first object is 9 V 3 A; it has to be")


def test_a_log_in_wire_order_is_recognised():
    turned = int.from_bytes((0x0A01912C).to_bytes(4, "big"), "little")
    assert "0A01912C" in examine_list(read_list([turned]))[0].sentence


def test_an_empty_list_has_nothing_to_examine():
    assert findings() == []


def test_fixed_supplies_ascend():
    found = findings(FIVE, FIFTEEN, NINE)
    assert [text for text in found if text.startswith("9 V 3 A stands behind 15 V 3 A")] == found


@pytest.mark.parametrize("later, earlier", [
    (NINE, Programmable(3.3, 11, 3)), (Battery(5, 12, 15), Variable(5, 12, 2)),
    (Programmable(3.3, 5.9, 3), Programmable(3.3, 11, 3))])
def test_the_kinds_and_the_ranges_keep_their_order(later, earlier):
    assert any("stands behind" in text for text in findings(FIVE, NINE, earlier, later))


def test_a_missing_voltage_is_named_with_its_current():
    # 20 V 3.25 A: 65 W; 15 V is mandatory above 27 W
    assert findings(FIVE, NINE, Fixed(20, 3.25)) == [
        "15 V 3 A is missing, which a source of 65 W has to offer."]


def test_a_smaller_current_than_mandatory_is_named():
    assert findings(Fixed(5, 2), NINE, FIFTEEN) == [
        "5 V 2 A is offered where a source of 45 W has to offer 5 V 3 A."]


@pytest.mark.parametrize("item", [Programmable(3.3, 21, 2.5), Variable(9, 12, 3),
                                  Battery(9, 12, 40)])
def test_no_object_stands_for_more_than_the_fixed_supplies(item):
    # 9 V 3 A: 27 W; 20 V · 2.5 A = 50 W, 12 V · 3 A = 36 W
    assert any("more than the 27 W" in text for text in findings(FIVE, NINE, item))


def test_a_power_limited_range_may_name_more():
    assert findings(FIVE, NINE, Programmable(3.3, 21, 2.5, power_limited=True)) == []


def test_a_higher_current_at_a_lower_voltage_is_allowed_up_to_the_power():
    # 12 V · 5 A = 60 W, 15 V · 4.33 A = 64.95 W, both within 65 W
    assert findings(FIVE, NINE, Fixed(12, 5), Fixed(15, 4.33), Fixed(20, 3.25)) == []


def test_5_amperes_need_a_marked_cable_and_6_are_too_many():
    assert "cable marked for 5 A" in findings(FIVE, NINE, FIFTEEN, TWENTY, departs=False)[0]
    assert any("More than 5 A" in text for text in findings(FIVE, Fixed(9, 6)))


def test_an_unusual_range_is_a_note_and_an_impossible_one_a_departure():
    assert "none of the usual" in findings(FIVE, NINE, Programmable(5.5, 20, 1), departs=False)[0]
    assert any("lowest voltage above" in text for text in findings(FIVE, Variable(12, 5, 1)))


def test_reserved_bits_are_a_note_that_shows_the_word():
    note = examine_list(read_list([0x0A01912C, 0x0A02D12C]))[0]
    assert (note.departs, "0A02D12C" in note.sentence) == (False, True)


def test_the_extended_range_brings_the_whole_standard_set():
    found = findings(CAPABLE, NINE, FIFTEEN, Fixed(28, 5), Adjustable(15, 28, 140))
    assert found == ["20 V 5 A is missing, which a source of 140 W has to offer."]


def test_the_extended_range_is_announced_and_brings_its_adjustable_supply():
    notes = findings(FIVE, NINE, FIFTEEN, TWENTY, Fixed(28, 5), departs=False)
    assert any("does not say" in text for text in notes)
    assert any("without the adjustable supply" in text for text in notes)
