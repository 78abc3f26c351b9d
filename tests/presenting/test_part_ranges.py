"""Which units are held against a published power."""
from teardowns.presenting.part_ranges import RANGES, ends_in, seen_in
from tests.presenting.part_units import End, Unit

WIDE, HIGH = RANGES


def test_every_mains_voltage_belongs_to_one_range():
    for voltage, is_high in {100: False, 179.9: False, 180: True, 240: True}.items():
        assert (WIDE.holds(voltage), HIGH.holds(voltage)) == (not is_high, is_high)


def test_a_unit_for_both_supplies_is_seen_in_both_at_its_own_end():
    unit = Unit()
    assert [seen_in([unit], one)[0].worked_out for one in RANGES] == list(unit.ends)


def test_a_measured_unit_is_not_also_one_that_is_worked_out():
    seen, = seen_in([Unit(measured=11.0, measured_mains=115.0)], WIDE)
    assert (seen.measured, seen.worked_out) == (11.0, None)
    seen, = seen_in([Unit(measured=11.0, measured_mains=115.0)], HIGH)
    assert seen.measured is None and seen.worked_out.voltage == 240.0


def test_of_two_ends_in_one_range_the_weaker_counts():
    unit = Unit(ends=(End(220.0, 9.0, 10.0, 11.0), End(240.0, 9.0, 12.0, 14.0)))
    assert seen_in([unit], HIGH)[0].worked_out.median == 10.0
    assert seen_in([unit], WIDE) == []


def test_mains_that_nobody_stated_are_in_no_range():
    assert ends_in(Unit(ends=(End(100.0, 9.0, 10.0, 11.0, is_assumed=True),)), WIDE) == []
