"""Measured, worked out and claimed powers on one scale."""
from teardowns.presenting.part_powers_chart import powers_chart
from teardowns.presenting.part_ranges import RANGES, seen_in
from tests.presenting.part_units import Unit

WIDE = RANGES[0]


def drawn(*units, cited=(12.0,)):
    return powers_chart(cited, seen_in(units, WIDE))


def test_each_unit_is_one_point_that_leads_to_it():
    found = drawn(Unit(), Unit(pk=2, measured=11.4, measured_mains=115.0))
    assert found.count('href="/units/1/"') == found.count('href="/units/2/"') == 1
    assert found.count('class="pt"') == found.count('class="pt-o"') == 1


def test_a_point_says_what_was_measured_or_between_what_it_is_worked_out():
    assert "11.4\u202fW measured, claimed 45\u202fW" in drawn(
        Unit(measured=11.4, measured_mains=115.0))
    assert "13.0 to 17.0\u202fW worked out" in drawn(Unit(claimed=None))


def test_claims_are_bars_and_the_cited_power_a_line():
    found = drawn(Unit(), cited=(12.0, 15.0))
    assert 'class="bar"' in found and found.count('class="req"') == 2
    assert "Claimed, 1 unit" in found and "12\u202fW cited" in found


def test_nobody_claims_nothing():
    assert 'class="bar"' not in drawn(Unit(claimed=None))
