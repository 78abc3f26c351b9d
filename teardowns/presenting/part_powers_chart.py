"""Powers of units that contain a part as dots on one scale, beside what its data sheet gives."""
from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from django.urls import reverse

from core.words.said import said
from teardowns.figures.axes import Axis, log_axis
from teardowns.figures.distribution import Distribution, Panel, Quarters, distribution
from teardowns.figures.plane import Point
from teardowns.populations.spread import bins, number_of_bins
from teardowns.reading.quantity import print_interval

from .list_words import number_of
from .numbers import as_recorded, claimed_watts
from .part_ranges import End, Seen
from .population_units import shortened, watts

NO_QUARTERS = Quarters(None, None, None, None, None)


def powers_chart(cited: Sequence[float], seen: Sequence[Seen]) -> str:
    """Measured, worked out and claimed powers apart, each on a line of its own. [W]"""
    axis = log_axis([*cited, *_all(seen)])
    measured = [(s.measured, _point(s, s.measured)) for s in seen if s.measured is not None]
    worked = [(s.worked_out.median, _point(s, s.worked_out.median, s.worked_out))
              for s in seen if s.worked_out is not None]
    claims = [s.unit.claimed for s in seen if s.unit.claimed is not None]
    panels = [_dots("Measured on a load", axis, measured), _dots("Worked out", axis, worked),
              _bars("Claimed", axis, claims)]
    return distribution(Distribution(
        axis, "Power, W", panels, [(value, f"{as_recorded(value, 'W')} cited") for value in cited]))


def _all(seen: Sequence[Seen]) -> list[float]:
    return [value for s in seen for value in (
        s.measured, s.worked_out and s.worked_out.median, s.unit.claimed) if value]


def _point(s: Seen, value: float, worked_out: End | None = None) -> Point:
    hint = f"{watts(value)} measured"
    if worked_out is not None:
        hint = f"{print_interval(worked_out.low, worked_out.high, 'W')} worked out"
    if s.unit.claimed is not None:
        hint += f", claimed {claimed_watts(s.unit.claimed)}"
    return Point(value, 0.0, reverse("unit_detail", args=[s.unit.pk]),
                 f"{shortened(s.unit.title)}: {said(hint)}", is_open=worked_out is not None)


def _dots(name: str, axis: Axis, points: Sequence[tuple[float, Point]]) -> Panel:
    number = number_of_bins(axis.low, axis.high)
    piles: list[list[Point]] = [[] for _ in range(number)]
    at = bins(np.array([value for value, _ in points], float), axis.low, axis.high, number)
    for place, (_, point) in zip(at.tolist(), points, strict=True):
        piles[place].append(point)
    return Panel(f"{name}, {number_of(len(points))}", [len(pile) for pile in piles], piles, (),
                 NO_QUARTERS)


def _bars(name: str, axis: Axis, values: Sequence[float]) -> Panel:
    number = number_of_bins(axis.low, axis.high)
    at = bins(np.array(values, float), axis.low, axis.high, number)
    counts = np.bincount(at, minlength=number).tolist()
    return Panel(f"{name}, {number_of(len(values))}", counts, (), (), NO_QUARTERS)
