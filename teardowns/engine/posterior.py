"""The likelihood of all evidence on a log grid, and what follows from it."""
from dataclasses import dataclass

import numpy as np

from .likelihoods import log_likelihood
from .lines import RULES, SHARED, Line
from .mistakes import SharedReading, log_if_mistaken

POINTS = 192        # of the grid
COARSE = 4          # points between those at which shared quantities are integrated over
# Of a claim: H0 runs from c/12 to 0.95 c, H1 to 1.6 c. Overstatement of about ten times is known in
# the trade (common practice, no source); a range far beyond it would thin out what lies near the
# claim, and so believe claims that are missed by a factor of two.
BELOW, MET, ABOVE = 12.0, 0.95, 1.6
# A charger's lesser claims lie far below what it can do, and a gross one far above. Without a
# share of each prior beyond the usual range, a load of twice the claim, held, would fit neither
# hypothesis and say nothing.
BEYOND, FAR = 0.2, 1000.0               # share of each prior, out to c/1000 and 1000 c
# Nor is a capability still farther off impossible. Without this, lines that leave nothing of the
# range to c/1000 would leave nothing of either hypothesis.
FARTHER = 1e-6
UNCLAIMED = (0.2, 300.0)                # W; the grid of a unit without claims
WIDER = (3.0, 1.6)                      # the grid reaches beyond the lowest, highest line


@dataclass(frozen=True, slots=True)
class Grid:
    """x = ln C at POINTS equal steps for each case: start (k, 1), step (k, 1)."""

    start: np.ndarray
    step: np.ndarray

    def points(self, rows=slice(None)) -> np.ndarray:
        """(k, POINTS)"""
        return self.start[rows] + self.step[rows] * np.arange(POINTS, dtype=float)

    def coarse_points(self, rows) -> np.ndarray:
        """(k, POINTS / COARSE + 3) every COARSE-th point, one before the first, two beyond."""
        steps = np.arange(-COARSE, POINTS + 2 * COARSE, COARSE, dtype=float)
        return self.start[rows] + self.step[rows] * steps


def make_grid(unit, smallest, largest, lines_by_end) -> Grid:
    """A grid a case, the same for all cases of a unit, that spans its claims and its lines.

    unit : (k,) int, ascending
    smallest, largest : (k,) float, claimed powers, NaN without a claim [W]
    """
    low = np.where(np.isnan(smallest), UNCLAIMED[0], smallest / BELOW)
    high = np.where(np.isnan(largest), UNCLAIMED[1], largest * ABOVE)
    # A case that no claim chose borrows the range of the unit's other cases.
    unclaimed = np.isnan(smallest) & _over_unit(unit, np.logical_or, ~np.isnan(smallest))
    low, high = np.where(unclaimed, np.inf, low), np.where(unclaimed, -np.inf, high)
    for line in (line for lines in lines_by_end for line in lines):
        low[line.rows] = np.minimum(low[line.rows], line.value / WIDER[0])
        high[line.rows] = np.maximum(high[line.rows], line.value * WIDER[1])
    start = np.log(_over_unit(unit, np.minimum, low))
    stop = np.log(_over_unit(unit, np.maximum, high))
    return Grid(start[:, None], ((stop - start) / (POINTS - 1))[:, None])


def _over_unit(unit, reduce, value):
    """(k,) What `reduce` makes of the values of all cases of each case's unit."""
    if not len(unit):
        return value
    _, first, which = np.unique(unit, return_index=True, return_inverse=True)
    return reduce.reduceat(value, first)[which.reshape(-1)]


CELLS = POINTS // COARSE + 3
NOBODY = np.zeros(0, int)
# The terms of a line that no case has: places and values, then both at the nodes of each rule.
SILENT = (NOBODY, np.zeros((0, POINTS)),
          [(NOBODY, np.zeros((0, len(weights), CELLS))) for _, weights in RULES.values()])
BLOCK = 32_768      # numbers at a time, so that what a formula leaves behind stays in the cache


class LogEvidence:
    """ln of the likelihood of every line on the grid, summed, with any one left out.

    A quantity of SHARED that several lines of a unit read is integrated over jointly, node by
    node, on a coarser grid. Where only one reads it, it is that line's own uncertainty.

    beside : the evidence of the other mains end, whose terms serve lines that do not differ
    readings : that several lines rest on, each of which may be a gross mistake
    """

    def __init__(self, grid: Grid, lines: tuple[Line, ...], unit: np.ndarray,
                 beside: "LogEvidence | None" = None,
                 readings: tuple[SharedReading, ...] = ()):
        self.lines, self.readings = lines, readings
        size = len(unit)
        readers = np.zeros((len(SHARED), size), int)
        for line in lines:
            readers[:, line.rows] += line.shared != 0
        # (SHARED, k) bool, which quantities are integrated over jointly
        self.joined = np.stack([_over_unit(unit, np.logical_or, count > 1)
                                for count in readers])
        self.plain = np.zeros((size, POINTS))
        # By rule: which cases it serves, the place of a case among them, the sum at its nodes.
        of_rule = [(self.joined == np.array(which)[:, None]).all(axis=0) for which in RULES]
        self.places = [np.cumsum(mine) - 1 for mine in of_rule]
        self.joint = [np.zeros((np.count_nonzero(mine), len(weights), CELLS))
                      for mine, (_, weights) in zip(of_rule, RULES.values(), strict=True)]
        self.terms = [self._add(grid, line, self._same(beside, j)) if line.rows.size else SILENT
                      for j, line in enumerate(lines)]
        # ln of the likelihood if no shared reading is mistaken
        self.right = self.plain.copy()
        for mine, joint, (_, weights) in zip(of_rule, self.joint, RULES.values(), strict=True):
            self.right[mine] += _mix(joint, weights)
        self._of_rule = of_rule
        self._weigh_mistakes(grid)

    def _weigh_mistakes(self, grid):
        """The likelihoods if all readings are right and if each is mistaken, over their highest."""
        mistaken = [log_if_mistaken(self.right[reading.rows], self._without_reading(reading),
                                    reading.chance, grid.points(reading.rows))
                    for reading in self.readings]
        self.top = self.right.max(axis=1, initial=-np.inf)
        for reading, log in zip(self.readings, mistaken, strict=True):
            self.top[reading.rows] = np.maximum(self.top[reading.rows], log.max(axis=1))
        self.if_right = np.exp(self.right - self.top[:, None])
        self.if_mistaken = [np.exp(log - self.top[reading.rows][:, None])
                            for reading, log in zip(self.readings, mistaken, strict=True)]
        self.likelihood = self.if_right.copy()      # (cases, POINTS)
        for reading, part in zip(self.readings, self.if_mistaken, strict=True):
            self.likelihood[reading.rows] += part

    @property
    def total(self) -> np.ndarray:
        """(cases, POINTS) ln of the likelihood, whether or not a reading is mistaken."""
        return np.log(self.likelihood) + self.top[:, None]

    def _same(self, beside, j):
        """The terms of the same line at the other end; None where they are others."""
        if beside is None or self.lines[j] is not beside.lines[j]:
            return None
        rows = self.lines[j].rows
        alike = np.array_equal(self.joined[:, rows], beside.joined[:, rows])
        return beside.terms[j] if alike else None

    def _add(self, grid, line, known):
        """The line's terms, and where they went: places in line.rows of each kind."""
        alone, plain, shared = known or self._terms(grid, line)
        self.plain[line.rows[alone]] += plain
        for place, joint, (common, nodes) in zip(self.places, self.joint, shared, strict=True):
            if common.size:
                joint[place[line.rows[common]]] += nodes
        return alone, plain, shared

    def _terms(self, grid, line):
        joined = self.joined[:, line.rows]
        shift = np.where(joined, line.shared, 0.0)                         # (SHARED, k)
        common = (shift != 0).any(axis=0)
        of_rule = [np.flatnonzero(common & (joined == np.array(which)[:, None]).all(axis=0))
                   for which in RULES]
        alone = np.flatnonzero(~common)
        return alone, _plain_term(grid, line, alone), [
            (at, _node_term(grid, line, at, shift[:, at], points))
            for at, (points, _) in zip(of_rule, RULES.values(), strict=True)]

    def _without_reading(self, reading):
        """(rows of the reading, POINTS) `right` as if the lines that rest on it did not exist."""
        left = self.plain[reading.rows]
        served = [mine[reading.rows] for mine in self._of_rule]
        rest = [joint[place[reading.rows[mine]]] for joint, place, mine in zip(
            self.joint, self.places, served, strict=True)]
        for j, where in reading.lines:
            alone, plain, shared = self.terms[j]
            _take_off(left, where[alone], plain)
            for joint, mine, (common, nodes) in zip(rest, served, shared, strict=True):
                at = where[common]
                _take_off(joint, np.where(at < 0, at, (np.cumsum(mine) - 1)[at]), nodes)
        for joint, mine, (_, weights) in zip(rest, served, RULES.values(), strict=True):
            left[mine] += _mix(joint, weights)
        return left

    def without(self, j: int) -> np.ndarray:
        """(rows of line j, POINTS) `right` as if line j did not exist."""
        rows, (alone, plain, shared) = self.lines[j].rows, self.terms[j]
        left = self.right[rows]
        left[alone] -= plain
        for place, joint, (common, nodes), (_, weights) in zip(
                self.places, self.joint, shared, RULES.values(), strict=True):
            if common.size:
                rest = joint[place[rows[common]]] - nodes
                left[common] = self.plain[rows[common]] + _mix(rest, weights)
        return left


def _take_off(whole, places, terms):
    """Subtract a line's terms where its places are not −1; no place occurs twice."""
    here = places >= 0
    if here.any():
        whole[places[here]] -= terms[here]


def _plain_term(grid, line, at):
    """(at, POINTS) with all of the line's uncertainty."""
    if not at.size:
        return np.zeros((0, POINTS))
    one, which = _different(line, at)
    d = np.log(line.value[one])[:, None] - grid.points(line.rows[one])
    term = _in_blocks(line, one, d, line.u_ln[one][:, None])
    return term if which is None else term[which]


def _node_term(grid, line, at, shift, points):
    """(at, nodes, coarse points) given each node of the shared quantities."""
    if not at.size:
        return np.zeros((0, len(points), CELLS))
    one, which = _different(line, at)
    shift = shift[:, np.searchsorted(at, one)]
    # A quantity of SHARED that nobody else reads stays the line's own.
    apart = np.where(shift == 0, line.shared[:, one], 0.0)
    sigma = np.sqrt(line.sigma[one] ** 2 + apart[0] ** 2 + apart[1] ** 2)[:, None, None]
    moved = np.log(line.value[one]) + points[:, :1] * shift[0] + points[:, 1:] * shift[1]
    d = moved.T[:, :, None] - grid.coarse_points(line.rows[one])[:, None, :]
    term = _in_blocks(line, one, d, sigma)
    return term if which is None else term[which]


def _different(line, at):
    """One place for each set of equal numbers, and where each of `at` finds its own.

    None in place of the second: no two are equal.
    """
    _, first, which = np.unique(line.same[at], return_index=True, return_inverse=True)
    return (at, None) if len(first) == len(at) else (at[first], which.reshape(-1))


def _in_blocks(line, at, d, sigma):
    """The likelihood of a line at distances d : (at, …); sigma : (at, 1, …)."""
    doubt = line.doubt[:, at].reshape(2, *sigma.shape)
    term = np.empty(d.shape)
    step = max(1, BLOCK // d[:1].size)
    for start in range(0, len(at), step):
        some = slice(start, start + step)
        term[some] = log_likelihood(line.rule.kind, d[some], sigma[some], line.rule.margin,
                                    *doubt[:, some])
    return term


def _mix(joint, weights):
    """(k, POINTS) ln of the mean likelihood over the nodes, node by node for equal bits."""
    top = joint.max(axis=1)
    total = np.zeros_like(top)
    for k, weight in enumerate(weights.tolist()):
        total += weight * np.exp(joint[:, k] - top)
    return _finer(np.log(total) + top)


def _finer(coarse):
    """(k, POINTS) from every COARSE-th point, by cubics through four neighbours."""
    fine = np.empty((len(coarse), POINTS // COARSE, COARSE))
    before, left, right, after = (coarse[:, j:j + POINTS // COARSE] for j in range(4))
    for j in range(COARSE):
        f = j / COARSE
        fine[:, :, j] = (-f * (f - 1) * (f - 2) / 6 * before
                         + (f + 1) * (f - 1) * (f - 2) / 2 * left
                         - (f + 1) * f * (f - 2) / 2 * right
                         + (f + 1) * f * (f - 1) / 6 * after)
    return fine.reshape(len(coarse), POINTS)


def density(log_evidence) -> np.ndarray:
    """(k, POINTS) the likelihood, its highest point at one."""
    return np.exp(log_evidence - log_evidence.max(axis=-1, keepdims=True))


def hypothesis_weights(grid: Grid, case, claim):
    """(2, m, POINTS) what a case's likelihood at each grid point adds to that of H1 and of H0.

    The likelihood is linear between grid points and constant outside. No weight is negative, so
    that a small sum is never the difference of two large ones. Without a claim: any numbers.
    """
    log = np.log(claim)[:, None] + np.log([1 / FAR, 1 / BELOW, MET, ABOVE, FAR])
    edges = (log - grid.start[case]) / grid.step[case]
    edges = np.where(np.isnan(edges), np.arange(5.0), edges)
    weights = np.empty((2, len(claim), POINTS))
    step = BLOCK // 4 // POINTS
    for start in range(0, len(claim), step):
        some = slice(start, start + step)
        weights[0, some], weights[1, some] = _weights(np.ascontiguousarray(edges[some].T))
    return weights


def _weights(edges):
    """edges : (5, m) of the hypotheses' parts, in grid steps from the first point"""
    far_below, below, met, above, far_above = (_up_to(edge) for edge in edges)
    widths = np.diff(edges, axis=0)[:, :, None]
    unmet = ((1 - BEYOND) / widths[1] * (met - below)
             + BEYOND / widths[0] * (below - far_below))
    met = ((1 - BEYOND) / widths[2] * (above - met)
           + BEYOND / widths[3] * (far_above - above))
    if (edges[0] > 0).any():
        unmet += FARTHER / widths[0] * (far_below - _up_to(np.minimum(edges[0], 0)))
    if (edges[4] < POINTS - 1).any():
        last = np.maximum(edges[4], POINTS - 1)
        met += FARTHER / widths[3] * (_up_to(last) - far_above)
    return met, unmet


def _up_to(edge):
    """(m, POINTS) each point's share of the integral from the first point to an edge, in steps.

    Of the part p that lies before the edge, a step gives p²/2 to the point after it and the rest
    to the point before it. Before the first and beyond the last point their own values go on.
    """
    if (edge <= 0).all():           # the same numbers for less work: most far edges lie outside
        share = np.zeros((len(edge), POINTS))
    else:
        part = np.clip(edge[:, None] - np.arange(POINTS - 1.0), 0, 1)
        after = 0.5 * part * part
        share = np.empty((len(edge), POINTS))
        np.subtract(part, after, out=share[:, :-1])
        share[:, -1] = 0
        share[:, 1:] += after
    share[:, 0] += np.minimum(edge, 0)
    share[:, -1] += np.maximum(edge - (POINTS - 1), 0)
    return share


def odds(likelihood, case, weights) -> np.ndarray:
    """(m,) odds of H1 against H0, even before any evidence; weights : `hypothesis_weights`."""
    mine = likelihood[case]
    met, unmet = (np.vecdot(mine, of) for of in weights)
    return np.maximum(met, 1e-290) / np.maximum(unmet, 1e-290)


QUANTILES = (0.5, 0.05, 0.95)


def quantiles(grid: Grid, likelihood) -> np.ndarray:
    """(k, 3) median, 5 % and 95 % of capability, log-uniform over the grid. [W]"""
    below = np.zeros_like(likelihood)
    np.cumsum(0.5 * (likelihood[:, 1:] + likelihood[:, :-1]), axis=-1, out=below[:, 1:])
    row = np.arange(len(below))
    found = []
    for q in QUANTILES:
        goal = q * below[:, -1]
        right = np.clip((below < goal[:, None]).sum(axis=-1), 1, POINTS - 1)
        a, b = below[row, right - 1], below[row, right]
        part = np.where(b > a, (goal - a) / np.where(b > a, b - a, 1), 0.0)
        found.append(np.exp(grid.start[:, 0] + grid.step[:, 0] * (right - 1 + part)))
    return np.stack(found, 1)
