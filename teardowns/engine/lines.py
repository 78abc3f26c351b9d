"""What each rule makes of each case: its value and its standard uncertainty in ln."""
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from .columns import DERIVED, EVIDENCE, Column, Frame
from .conditions import LOADS
from .defaults import CONDITIONED
from .rule import CONDITIONS, SWITCH, Rule
from .uncertainty import contributions, correlated

# Read by several lines, each in its own formula: integrated over jointly, never independent.
SHARED = ("efficiency", "switching_frequency")
# Radon's rule of 7 points, exact to degree 5 for two independent normal distributions: the
# middle, and a hexagon of radius 2. A. H. Stroud, Approximate Calculation of Multiple Integrals,
# 1971, E2r2 5-1 (from memory; the moments are tested).
_HALF = 3**0.5
_POINTS = np.array([[0.0, 0.0], [2.0, 0.0], [1.0, _HALF], [-1.0, _HALF], [-2.0, 0.0],
                    [-1.0, -_HALF], [1.0, -_HALF]])
_WEIGHTS = np.array([0.5, *[1 / 12] * 6])


# One: the 3 points of Gauss and Hermite, exact to degree 5 too.
_ALONE, _THIRDS = np.array([0.0, _HALF, -_HALF]), np.array([2 / 3, 1 / 6, 1 / 6])
# By which of SHARED several lines read: points (q, 2), in standard uncertainties, and weights (q,).
RULES = {(True, True): (_POINTS, _WEIGHTS),
         (True, False): (np.stack([_ALONE, np.zeros(3)], 1), _THIRDS),
         (False, True): (np.stack([np.zeros(3), _ALONE], 1), _THIRDS)}
# What differs between the claims of one unit; a line that reads none of it is drawn once a unit.
BY_CLAIM = {"output_voltage", *LOADS, *CONDITIONED}
# What differs between the two mains ends; a line that reads none of it is drawn once for both.
BY_END = {"mains_voltage", *LOADS, *CONDITIONED}


@dataclass(frozen=True, slots=True)
class Line:
    """One rule over the cases that have the evidence for it.

    rows : (k,) int, the cases        value : (k,) float [W or V; a switch: the ratio]
    sigma : (k,) float, in ln, without the shared quantities
    u_ln : (k,) float, in ln, with them; of a switch, both are its ratio
    shared : (SHARED, k) float, by how much ln(value) moves for one standard uncertainty of each
    parts : (reads, k) float, each input's contribution to u_ln
    model : (k,) float, the formula's own; common : (k,) float, variance from a common photo scale
    doubt : (2, k) float, how likely a part was mistaken, how many times the value would be then
    same : (k,) int, equal for cases whose numbers are the same by construction
    """

    rule: Rule
    rows: np.ndarray
    value: np.ndarray
    sigma: np.ndarray
    u_ln: np.ndarray
    shared: np.ndarray
    parts: np.ndarray
    model: np.ndarray
    common: np.ndarray
    doubt: np.ndarray
    same: np.ndarray

    def take(self, places, rows) -> "Line":
        """The line at some places of its own, for the cases `rows`."""
        return replace(
            self, rows=rows, value=self.value[places], sigma=self.sigma[places],
            u_ln=self.u_ln[places], shared=np.ascontiguousarray(self.shared[:, places]),
            parts=np.ascontiguousarray(self.parts[:, places]), model=self.model[places],
            common=self.common[places], doubt=np.ascontiguousarray(self.doubt[:, places]),
            same=self.same[places])


def draw_lines(rules: tuple[Rule, ...], frame: Frame,
               unit: np.ndarray | None = None) -> tuple[Line, ...]:
    """Every rule over the frame's rows.

    unit : (frame.size,) int, ascending, whose cases share what no claim decides; None: none do
    """
    return draw_at_ends(rules, (frame,), np.arange(frame.size) if unit is None else unit)[0]


def draw_at_ends(rules: tuple[Rule, ...], frames: tuple[Frame, ...],
                 unit: np.ndarray) -> list[tuple[Line, ...]]:
    """Every rule at each mains end; where the end makes no difference, the same Line object.

    frames : by end; unit : as for `draw_lines`
    """
    _, *of_unit = np.unique(unit, return_index=True, return_inverse=True)
    first = [_draw_over(rule, frames[0], *of_unit) for rule in rules]
    return [_speaking(first), *(
        _speaking([_draw_over(rule, frame, *of_unit) if BY_END.intersection(rule.reads) else line
                   for rule, line in zip(rules, first, strict=True)])
        for frame in frames[1:])]


def _draw_over(rule, frame, first, which):
    """first : (n,) a case of each unit; which : (k,) the place among those of each case's unit"""
    if any(code not in frame.columns for code in rule.required):
        return _silent(rule)
    if BY_CLAIM.intersection(rule.reads) or len(first) == frame.size:
        return _draw(rule, frame)
    return _repeated(_draw(rule, frame.take(first, rule.reads)), which)


def _speaking(drawn: list[Line]) -> tuple[Line, ...]:
    spoken = {line.rule.id: line.rows for line in drawn}
    return tuple(_beside(line, spoken.get(line.rule.unless)) for line in drawn)


def _repeated(line, which):
    """A line of units as a line of their cases."""
    if not line.rows.size:
        return line
    place = np.full(which.max(initial=-1) + 1, -1)
    place[line.rows] = np.arange(len(line.rows))
    rows = np.flatnonzero(place[which] >= 0)
    return line.take(place[which][rows], rows)


def _beside(line, rows):
    """The line, silent where another one tells the same fact."""
    if rows is None or not line.rows.size:
        return line
    keep = np.flatnonzero(~np.isin(line.rows, rows))
    return line if len(keep) == len(line.rows) else line.take(keep, line.rows[keep])


def _draw(rule, frame):
    rows, columns, value = _known(rule, frame)
    if not rows.size:
        return _silent(rule)
    same, nothing = np.arange(len(rows)), np.zeros(len(rows))
    if rule.kind == SWITCH:
        return Line(rule, rows, value, value, value, np.zeros((len(SHARED), len(rows))),
                    np.zeros((len(rule.reads), len(rows))), nothing, nothing, _trusted(rows),
                    same)
    parts = np.stack(contributions(rule, columns, value))
    shared = np.stack([parts[rule.reads.index(code)] if code in rule.reads
                       else nothing for code in SHARED])
    joint = shared[0] * shared[0] + shared[1] * shared[1]
    model = np.full(len(rows), rule.model_error)
    if rule.spread:
        model = rule.spread(*(column.value for column in columns))
    common = correlated(rule, parts, frame.scales, rows)
    own = np.maximum(_squares(parts) - joint + common, 0.0) + model * model
    doubt = _trusted(rows)
    if rule.doubt:
        doubt = np.stack(rule.doubt(*(column.value for column in columns)))
    return Line(rule, rows, value, np.sqrt(own), np.sqrt(own + joint), shared, parts, model,
                common, doubt, same)


def _silent(rule):
    """The line of a rule that no case has the evidence for."""
    none, numbers = np.zeros(0, int), np.zeros(0)
    return Line(rule, none, numbers, numbers, numbers, np.zeros((len(SHARED), 0)),
                np.zeros((len(rule.reads), 0)), numbers, numbers, _trusted(none), none)


def _trusted(rows):
    return np.stack([np.zeros(len(rows)), np.ones(len(rows))])


def _squares(parts):
    """(k,) summed part by part, so that a unit gets the same bits alone and among many."""
    return sum((part * part for part in parts), np.zeros(parts.shape[1]))


def is_observed(rule: Rule, columns: Sequence[Column]) -> np.ndarray:
    """(n,) bool, whether any input was found rather than assumed; columns : as the rule reads."""
    return np.logical_or.reduce([
        (column.how == EVIDENCE) | (column.how == DERIVED)
        for code, column in zip(rule.reads, columns, strict=True) if code not in CONDITIONS])


def _known(rule, frame):
    """The rows with all required inputs and a positive result, their columns and values.

    An input of unknown uncertainty is no input, rather than an exact one. A line rests on
    evidence: one whose inputs are all defaults says nothing about the unit.
    """
    columns = [frame[code] for code in rule.reads]
    known = is_observed(rule, columns)
    for code, column in zip(rule.reads, columns, strict=True):
        if code not in rule.optional:
            known &= ~np.isnan(column.value) & ~np.isnan(column.u)
    rows = np.flatnonzero(known)
    if not rows.size:
        return rows, columns, rows
    columns = [column.take(rows) for column in columns]
    value = np.asarray(rule.compute(*(column.value for column in columns)), float)
    good = np.isfinite(value) & (value > 0)
    if not good.all():
        rows, value = rows[good], value[good]
        columns = [column.take(good) for column in columns]
    return rows, columns, value
