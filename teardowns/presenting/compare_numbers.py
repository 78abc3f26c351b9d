"""Masses, densities and the other numbers of each unit side by side."""
from __future__ import annotations

from collections.abc import Callable, Sequence

from teardowns.reading.printing import print_quantity

from .compare_columns import Cell, Column, Row, cell, link, quiet
from .compared_facts import Facts, Known
from .numbers import number, printed, with_unit

Value = Callable[[Facts], Known]


def compared_masses(columns: Sequence[Column], facts: Sequence[Facts]) -> list[Row]:
    return _rows(columns, facts, (
        ("Mass", "", lambda one: one.mass, _grams),
        ("Parts with no function", "ballast", lambda one: one.ballast, _grams),
        ("Mass without them", "", lambda one: one.working_mass, _grams),
        ("Volume", "outside of the case", lambda one: one.volume, _cubic_centimetres),
        ("Density", "mass over volume", _density,
         lambda value: with_unit(number(value / 1e3), "g/cm³")),
        ("Capability per mass", "without ballast, middle of the interval", _per_mass,
         lambda value: with_unit(number(value / 1e3, 2), "W/g")),
    ))


def compared_inside(columns: Sequence[Column], facts: Sequence[Facts]) -> list[Row]:
    """What holds and carries the power."""
    return _rows(columns, facts, (
        ("Bulk capacitance", "", lambda one: one.bulk_capacitance,
         lambda value: print_quantity(value, "F", digits=3)),
        ("Bulk capacitance per watt claimed", "", _per_watt,
         lambda value: with_unit(number(value * 1e6, 2), "µF/W")),
        ("Core cross-section", "effective area", lambda one: one.core_area, square_millimetres),
        ("Primary turns", "", lambda one: one.primary_turns, printed),
        ("Copper of the output winding", "cross-section of its conductors",
         lambda one: one.copper, square_millimetres),
    ))


def _rows(columns, facts, qualities) -> list[Row]:
    return [Row(name, remark, [_cell(column, value(one), text)
                               for column, one in zip(columns, facts, strict=True)])
            for name, remark, value, text in qualities]


def _cell(column: Column, known: Known, text: Callable[[float], str]) -> Cell:
    if known.value is None:
        return cell(column, [quiet(known.why)])
    href = column.links.evidence(known.ref) if known.ref else ""
    return cell(column, [link(text(known.value), href), known.remark])


def _grams(value):
    return print_quantity(value, "kg", digits=3)


def _cubic_centimetres(value):
    return with_unit(number(value * 1e6), "cm³")


def square_millimetres(value: float) -> str:
    return with_unit(number(value * 1e6), "mm²")


def _density(one: Facts) -> Known:
    return _ratio(one.mass, one.volume)


def _per_mass(one: Facts) -> Known:
    capability = Known(one.capability, "capability: cannot tell")
    return _ratio(capability, one.working_mass)


def _per_watt(one: Facts) -> Known:
    return _ratio(one.bulk_capacitance, Known(one.claimed, "no power claim"))


def _ratio(above: Known, below: Known) -> Known:
    """In SI; without either, why it is not known."""
    if above.value is None or not below.value:
        return Known(None, above.why or below.why)
    return Known(above.value / below.value, ref=above.ref or below.ref)
