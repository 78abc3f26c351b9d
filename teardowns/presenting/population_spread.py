"""Bulk capacitance per watt and insulation margins: how one quantity is spread over units."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import isfinite

import numpy as np
from django.utils.safestring import mark_safe

from teardowns.figures.axes import Axis, log_axis
from teardowns.figures.distribution import Distribution, Panel, Quarters, distribution
from teardowns.figures.plane import Point
from teardowns.populations.listed import ListedNumbers
from teardowns.populations.spread import Spread
from teardowns.populations.stacks import Stacks, stacks

from .list_words import number_of
from .numbers import number
from .population_units import Legend, Picture, in_unit, point

Names = Mapping[int, str]
PER_WATT = "µF/W"
DOT = Legend("pt", "a unit")
HALF = "the middle half of these units, its ring at the median"
NINE = "; the thin line holds nine in ten"
BARS = Legend("bar", "how many units; single dots are the ones at both ends")


@dataclass(frozen=True, slots=True)
class Column:
    """One panel of the drawing. values : (n,) of all listed units, in the unit that is drawn"""

    name: str
    values: np.ndarray
    stacks: Stacks


@dataclass(frozen=True, slots=True)
class Spreads:
    x: Axis
    columns: Sequence[Column]
    rows: np.ndarray             # (m,) int, units of any column, the least first

    @property
    def points(self) -> np.ndarray:
        """Rows that are drawn as points."""
        return np.unique(np.concatenate([one.stacks.points for one in self.columns]))


def bulk_spreads(numbers: ListedNumbers, chosen: np.ndarray, this: int | None) -> Spreads:
    """Bulk capacitance over claimed and over measured power. [µF/W]"""
    size = 1e6 * numbers["bulk_capacitance"]
    return _spreads({name: _per(size, numbers[column]) for name, column in (
        ("per watt claimed", "claimed_power"), ("per watt measured", "measured_power"))},
        chosen, this)


def margin_spreads(numbers: ListedNumbers, chosen: np.ndarray, this: int | None) -> Spreads:
    """Distance over requirement of the tightest measured path."""
    return _spreads({"margin": numbers["insulation_margin"]}, chosen, this, (1.0,))


def bulk_picture(found: Spreads, numbers: ListedNumbers, names: Names,
                 this: int | None) -> Picture:
    chart = Distribution(found.x, "Bulk capacitance per watt, µF/W",
                         [_panel(found, one, numbers, names, this, PER_WATT)
                          for one in found.columns])
    return Picture(
        mark_safe(distribution(chart)),
        [_told(one.stacks.spread, one.name, PER_WATT) for one in found.columns], _legend(found),
        ("Bulk capacitance", "Per watt claimed", "Per watt measured"), "least per watt first",
        lambda row: [in_unit(1e6 * float(numbers["bulk_capacitance"][row]), "µF"),
                     *(in_unit(float(one.values[row]), PER_WATT) for one in found.columns)])


def margin_picture(found: Spreads, numbers: ListedNumbers, names: Names,
                   this: int | None) -> Picture:
    column, = found.columns
    chart = Distribution(found.x, "Distance over requirement",
                         [_panel(found, column, numbers, names, this, "")],
                         marks=((1.0, "requirement"),))
    count, short = number_of(len(column.stacks.rows)), column.stacks.below(1.0)
    says = [f"Of {count}, {short} {'has' if short == 1 else 'have'} a distance shorter than "
            "the most lenient requirement, as measured.",
            *_at_the_end(column.stacks, found.x), _told(column.stacks.spread, "", "")]
    return Picture(mark_safe(distribution(chart)), says, _legend(found),
                   ("Margin", "Beside the lenient requirement"), "tightest first",
                   lambda row: _margin_cells(float(column.values[row])))


def _per(size, power):
    known = (size > 0) & (power > 0)
    return np.where(known, size, np.nan) / np.where(known, power, np.nan)


def _spreads(columns: Mapping[str, np.ndarray], chosen: np.ndarray, this: int | None,
             more: Sequence[float] = ()) -> Spreads:
    drawn = chosen.copy()
    if this is not None:
        drawn[this] = True
    seen = np.concatenate([values[drawn & np.isfinite(values)] for values in columns.values()])
    seen = seen[seen > 0]                # zero is drawn at the scale's lower end
    axis = log_axis([*more, *([seen.min(), seen.max()] if len(seen) else [])])
    made = [Column(name, values, stacks(values, chosen, axis.low, axis.high))
            for name, values in columns.items()]
    return Spreads(axis, made, _least_first(made))


def _least_first(columns):
    """Each unit once, by the first of its columns that is known."""
    value = columns[0].values
    drawn = np.zeros(len(value), bool)
    for column in columns:
        value = np.where(np.isfinite(value), value, column.values)
        drawn[column.stacks.rows] = True
    rows = np.flatnonzero(drawn)
    return rows[np.argsort(value[rows], kind="stable")]


def _panel(found: Spreads, column: Column, numbers: ListedNumbers, names: Names,
           this: int | None, unit: str) -> Panel:
    made = column.stacks
    at = {row: _point(numbers, column, row, names, unit) for row in made.points.tolist()}
    piles: list[list[Point]] = []
    if not made.is_dense:
        piles = [[] for _ in made.counts]
        for row, place in zip(made.rows.tolist(), made.bin.tolist(), strict=True):
            piles[place].append(at[row])
    value = None if this is None else float(column.values[this])
    name = ", ".join(filter(None, (column.name if len(found.columns) > 1 else "",
                                   number_of(len(made.rows)))))
    return Panel(name, made.counts.tolist(), piles, list(at.values()) if made.is_dense else [],
                 _quarters(made.spread), value if value is not None and isfinite(value) else None)


def _point(numbers, column, row, names, unit):
    value = float(column.values[row])
    hint = in_unit(value, unit) if unit else number(value)
    return point(numbers, row, value, 0.0, hint, names)


def _quarters(found: Spread) -> Quarters:
    return Quarters(*(value if isfinite(value) else None for value in (
        found.twentieth, found.quarter, found.median, found.three_quarters, found.nineteen)))


def _told(found: Spread, name: str, unit: str) -> str:
    """`Per watt claimed: half of 31 units lie between 0.9 and 2.1 µF/W, the median is 1.4 µF/W.`"""
    lead = f"{name.capitalize()}: " if name else ""
    start = "half" if name else "Half"
    if found.n == 0:
        return f"{lead}no unit has what it takes."
    if not isfinite(found.median):
        return f"{lead}{number_of(found.n)}, too few to say how they are spread."
    low, middle, high = (number(value) for value in (
        found.quarter, found.median, found.three_quarters))
    half = f"{lead}{start} of {number_of(found.n)} lie between {low} and {high}"
    told = f"{half}; the median is {middle}"
    return f"{told}\u202f{unit}." if unit else f"{told}."


def _at_the_end(made: Stacks, axis: Axis) -> list[str]:
    count = made.below(axis.low)
    if not count:
        return []
    return [f"At the left end of the scale {number_of(count)} {'lies' if count == 1 else 'lie'} at "
            f"{number(float(made.values[0]))} or below {number(axis.low)}."]


def _legend(found: Spreads) -> list[Legend]:
    spreads = [one.stacks.spread for one in found.columns]
    legend = [BARS if any(one.stacks.is_dense for one in found.columns) else DOT]
    if any(isfinite(one.median) for one in spreads):
        legend.append(Legend("cap", HALF + NINE * any(isfinite(one.nineteen) for one in spreads)))
    return legend


def _margin_cells(margin: float) -> list[str]:
    return [number(margin), "shorter" if margin < 1 else "not shorter"]
