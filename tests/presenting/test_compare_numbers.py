"""Masses and what follows from them, side by side."""
from dataclasses import replace

from teardowns.presenting.compare_numbers import compared_inside, compared_masses
from teardowns.presenting.compared_facts import Known
from tests.presenting.test_compared_explanation import A

from .compared import columns, compared


def texts(rows, name):
    return next([str(cell.text) for cell in row.cells] for row in rows if row.name == name)


def masses(*facts):
    return compared_masses(columns(*(compared(pk=pk) for pk, _ in enumerate(facts, 1))), facts)


def test_density_is_mass_over_volume():
    # 46.2 g / 42 cm³ = 1.10 g/cm³
    assert "1.10\u202fg/cm³" in texts(masses(A), "Density")[0]


def test_capability_per_mass_leaves_ballast_out():
    # 15 W / 30 g = 0.50 W/g, where the whole weighs 46.2 g
    one = replace(A, working_mass=Known(0.030, ref="measurement/mass"))
    text = texts(masses(one), "Capability per mass")[0]
    assert "0.50\u202fW/g" in text and 'href="/units/1/#measurement-mass"' in text


def test_bulk_capacitance_per_watt_is_of_the_claim():
    # 15 µF / 45 W = 0.33 µF/W
    rows = compared_inside(columns(compared()), [A])
    assert "0.33\u202fµF/W" in texts(rows, "Bulk capacitance per watt claimed")[0]


def test_what_is_not_known_says_why_and_is_no_number():
    one = replace(A, mass=Known(None, "not readable"), capability=None)
    rows = masses(one)
    assert "not readable" in texts(rows, "Mass")[0] and "not readable" in texts(rows, "Density")[0]
    assert "capability: cannot tell" in texts(rows, "Capability per mass")[0]
    assert not any(digit in texts(rows, "Density")[0] for digit in "0123456789")


def test_without_a_claim_there_is_nothing_per_watt():
    rows = compared_inside(columns(compared()), [replace(A, claimed=None)])
    assert "no power claim" in texts(rows, "Bulk capacitance per watt claimed")[0]
