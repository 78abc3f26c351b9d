"""Mass against measured power, and capability against claim: a point or a cell for each unit."""
from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from django.utils.safestring import mark_safe

from teardowns.engine.habits import LEAST_RANGE, LEAST_UNITS
from teardowns.figures.axes import Axis, log_axis
from teardowns.figures.plane import Point
from teardowns.figures.scatter import Ink, Scatter, scatter
from teardowns.populations.band import TOO_ALIKE, TOO_FEW, Band
from teardowns.populations.cells import Cells, cells
from teardowns.populations.listed import ListedNumbers
from teardowns.populations.relation import Relation, against_band, against_equal
from teardowns.reading.quantity import print_interval

from .list_words import number_of
from .numbers import claimed_watts
from .population_units import Legend, Picture, grams, point, times, watts

Names = Mapping[int, str]
ALONG = 41               # places at which the band's edges are worked out
GRAIN = (48, 28)         # cells across and up
MEASURED = Legend("pt", "a unit whose power was measured on a load")
ESTIMATED = Legend("pt-o", "a unit whose capability is worked out from its parts")
DENSE = "Cells are inked by how many units lie there"
APART = "; single points are the units that stand out most"


def mass_relation(numbers: ListedNumbers, chosen: np.ndarray) -> Relation:
    """Mass [g] against measured power [W]."""
    return against_band(1e3 * numbers["mass"], numbers["measured_power"], chosen)


def claim_relation(numbers: ListedNumbers, chosen: np.ndarray) -> Relation:
    """Claim [W] against capability [W]."""
    return against_equal(numbers["claimed_power"], numbers["capability"], chosen)


def mass_picture(relation: Relation, numbers: ListedNumbers, names: Names,
                 this: int | None) -> Picture:
    edges = _edges(relation.band)
    across, up = _ends(relation, this)
    x, y = log_axis(across), log_axis([*up, *(edge for _, *of_band in edges for edge in of_band)])
    ink, grid = _ink(relation, x, y)
    chart = Scatter(
        x, y, "Mass without cable, g", "Measured power, W",
        [_mass_point(relation, numbers, names, row) for row in relation.points.tolist()],
        band=edges, ink=ink, grain=GRAIN, this=_place(relation, this))
    legend = [*_points([MEASURED], relation), *_tints(grid)]
    if edges:
        legend.append(Legend("band", "where nine of ten further units would be expected; in its "
                                     "middle the robust line through these units"))
    return Picture(
        mark_safe(scatter(chart)), _mass_says(relation), legend,
        ("Mass", "Measured power", *(("Band at this mass", "Where it lies") if edges else ())),
        "farthest from the band’s middle first" if edges else "heaviest first",
        lambda row: _mass_cells(relation, row))


def claim_picture(relation: Relation, numbers: ListedNumbers, names: Names,
                  this: int | None) -> Picture:
    both = log_axis([end for ends in _ends(relation, this) for end in ends])
    ink, grid = _ink(relation, both, both)
    chart = Scatter(
        both, both, "Claimed power, W", "Capability, W",
        [_claim_point(relation, numbers, names, row) for row in relation.points.tolist()],
        diagonal="capability = claim", ink=ink, grain=GRAIN, this=_place(relation, this),
        whisker=_interval(numbers, this))
    return Picture(
        mark_safe(scatter(chart)), _claim_says(relation, numbers),
        [*_points([MEASURED, ESTIMATED], relation), *_tints(grid)],
        ("Claimed", "Capability", "90 % interval", "Claim over capability", "Known from"),
        "widest gap between claim and capability first",
        lambda row: _claim_cells(relation, numbers, row))


def _edges(band: Band | str) -> list[tuple[float, float, float, float]]:
    """x, low, middle and high of the band from its smallest unit to its largest."""
    if not isinstance(band, Band):
        return []
    x = np.geomspace(band.smallest, band.largest, ALONG)
    x[[0, -1]] = band.smallest, band.largest     # rounding must not put the ends outside
    line, factor = band.line(x), band.factor(x)
    return list(zip(x.tolist(), (line / factor).tolist(), line.tolist(), (line * factor).tolist(),
                    strict=True))


def _ends(relation: Relation, this: int | None) -> tuple[list[float], list[float]]:
    """Smallest and largest x, and y, of all that is drawn; nothing where nothing is."""
    across, up = relation.once("ends", lambda: _ends_of(relation, relation.rows))
    if this is None:
        return across, up
    of_this = _ends_of(relation, np.array([this]))
    return across + of_this[0], up + of_this[1]


def _ends_of(relation, rows):
    x, y = relation.x[rows], relation.y[rows]
    known = np.isfinite(x) & np.isfinite(y)
    if not known.any():
        return [], []
    x, y = x[known], y[known]
    return [float(x.min()), float(x.max())], [float(y.min()), float(y.max())]


def _place(relation: Relation, this: int | None) -> tuple[float, float] | None:
    if this is None or not np.isfinite(relation.x[this] + relation.y[this]):
        return None
    return float(relation.x[this]), float(relation.y[this])


def _interval(numbers: ListedNumbers, this: int | None) -> tuple[float, float] | None:
    if this is None:
        return None
    low, high = numbers["capability_low"][this], numbers["capability_high"][this]
    return (float(low), float(high)) if np.isfinite(low + high) else None


def _ink(relation: Relation, x: Axis, y: Axis) -> tuple[list[Ink], Cells | None]:
    if not relation.is_dense:
        return [], None
    rows, ends = relation.rows, ((x.low, x.high), (y.low, y.high))
    grid = relation.once(ends, lambda: cells(relation.x[rows], relation.y[rows], *ends, *GRAIN))
    return [Ink(step, list(zip(grid.column[grid.step == step].tolist(),
                               grid.row[grid.step == step].tolist(), strict=True)))
            for step in range(len(grid.least))], grid


def _tints(grid: Cells | None) -> list[Legend]:
    if grid is None:
        return []
    return [Legend(f"ink{step}", f"{least} to {number_of(most)}" if least < most
                   else number_of(most))
            for step, (least, most) in enumerate(zip(grid.least, grid.most, strict=True))]


def _mass_point(relation: Relation, numbers: ListedNumbers, names: Names, row: int) -> Point:
    x, y = float(relation.x[row]), float(relation.y[row])
    return point(numbers, row, x, y, f"{grams(x)}, {watts(y)}", names)


def _claim_point(relation: Relation, numbers: ListedNumbers, names: Names, row: int) -> Point:
    x, y = float(relation.x[row]), float(relation.y[row])
    return point(numbers, row, x, y, f"claimed {claimed_watts(x)}, capability {watts(y)}", names,
                 is_open=not np.isfinite(numbers["measured_power"][row]))


def _mass_says(relation: Relation) -> list[str]:
    n, band = len(relation.rows), relation.band
    if isinstance(band, Band):
        outside = relation.once(
            "outside", lambda: int((np.abs(relation.off[relation.rows]) > 1).sum()))
        middle = float(np.sqrt(band.smallest * band.largest))
        return [f"At a mass of {grams(middle)} the band reaches from {_reach(band, middle)}; it "
                f"is drawn from the lightest to the heaviest of {number_of(n)} and not beyond.",
                f"{_outside(outside, n)} outside of it.", *_density(relation)]
    if band == TOO_FEW:
        why = f"it takes {LEAST_UNITS} units, and {n} {'is' if n == 1 else 'are'} known"
    elif band == TOO_ALIKE:
        why = f"the heaviest of these units weighs less than {LEAST_RANGE:g} times the lightest"
    else:
        why = "among these units the heavier ones deliver no more power"
    return [f"No band is drawn: {why}.", *_density(relation)]


def _outside(count, n):
    return f"{count or 'None'} of {number_of(n)} {'lies' if count < 2 else 'lie'}"


def _density(relation: Relation) -> list[str]:
    return [f"{DENSE}{APART * bool(len(relation.points))}."] if relation.is_dense else []


def _points(legend: list[Legend], relation: Relation) -> list[Legend]:
    """Without a band nobody among many stands out, and no point is drawn."""
    return legend if len(relation.points) else []


def _reach(band: Band, x: float) -> str:
    at = np.array([x])
    line, factor = float(band.line(at)[0]), float(band.factor(at)[0])
    return print_interval(line / factor, line * factor, "W")


def _mass_cells(relation: Relation, row: int) -> list[str]:
    x, y, off = (float(column[row]) for column in (relation.x, relation.y, relation.off))
    if not isinstance(relation.band, Band):
        return [grams(x), watts(y)]
    if not np.isfinite(off):
        return [grams(x), watts(y), "no band at this mass", ""]
    ratio = y / float(relation.band.line(np.array([x]))[0])
    where = "inside" if abs(off) <= 1 else "above" if off > 0 else "below"
    return [grams(x), watts(y), _reach(relation.band, x), f"{where}, {times(ratio)} its middle"]


def _claim_says(relation: Relation, numbers: ListedNumbers) -> list[str]:
    rows = relation.rows
    below, whole, measured = relation.once("counts", lambda: (
        int((relation.off[rows] < 0).sum()),
        int((numbers["capability_high"][rows] < relation.x[rows]).sum()),
        int(np.isfinite(numbers["measured_power"][rows]).sum())))
    return [f"On the line a unit can deliver what is printed on it; below it, less. The median of "
            f"{below} of {number_of(len(rows))} lies below the line, of {whole} the whole 90 % "
            f"interval does.",
            f"Of {number_of(measured)} the power was measured.", *_density(relation)]


def _claim_cells(relation: Relation, numbers: ListedNumbers, row: int) -> list[str]:
    x, y = float(relation.x[row]), float(relation.y[row])
    interval = _interval(numbers, row)
    return [claimed_watts(x), watts(y), print_interval(*interval, "W") if interval else "unknown",
            times(x / y), "a load" if np.isfinite(numbers["measured_power"][row]) else "its parts"]
