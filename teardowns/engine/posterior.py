"""The likelihood of all evidence on a log grid, and what follows from it."""
from dataclasses import dataclass

import numpy as np

from .likelihoods import log_likelihood
from .lines import NODE_WEIGHTS, NODES, SHARED, Line

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


NOBODY = np.zeros(0, int)
# The terms of a line that no case has: places, values, places, values at the nodes.
SILENT = (NOBODY, np.zeros((0, POINTS)),
          NOBODY, np.zeros((0, len(NODE_WEIGHTS), POINTS // COARSE + 3)))


class LogEvidence:
    """ln of the likelihood of every line on the grid, summed, with any one left out.

    A quantity of SHARED that several lines of a unit read is integrated over jointly, node by
    node, on a coarser grid. Where only one reads it, it is that line's own uncertainty.

    beside : the evidence of the other mains end, whose terms serve lines that do not differ
    """

    def __init__(self, grid: Grid, lines: tuple[Line, ...], unit: np.ndarray,
                 beside: "LogEvidence | None" = None):
        self.lines = lines
        size = len(unit)
        readers = np.zeros((len(SHARED), size), int)
        for line in lines:
            readers[:, line.rows] += line.shared != 0
        # (SHARED, k) bool, which quantities are integrated over jointly
        self.joined = np.stack([_over_unit(unit, np.logical_or, count > 1)
                                for count in readers])
        shared = self.joined.any(axis=0)
        self.place = np.cumsum(shared) - 1          # of a case among those that share
        self.plain = np.zeros((size, POINTS))
        self.joint = np.zeros((np.count_nonzero(shared), len(NODE_WEIGHTS), POINTS // COARSE + 3))
        self.terms = [self._add(grid, line, self._same(beside, j)) if line.rows.size else SILENT
                      for j, line in enumerate(lines)]
        self.total = self.plain.copy()
        self.total[shared] += _mix(self.joint)

    def _same(self, beside, j):
        """The terms of the same line at the other end; None where they are others."""
        if beside is None or self.lines[j] is not beside.lines[j]:
            return None
        rows = self.lines[j].rows
        alike = np.array_equal(self.joined[:, rows], beside.joined[:, rows])
        return beside.terms[j] if alike else None

    def _add(self, grid, line, known):
        """The line's terms, and where they went: places in line.rows of either kind."""
        alone, plain, common, nodes = known or self._terms(grid, line)
        self.plain[line.rows[alone]] += plain
        self.joint[self.place[line.rows[common]]] += nodes
        return alone, plain, common, nodes

    def _terms(self, grid, line):
        shift = np.where(self.joined[:, line.rows], line.shared, 0.0)      # (SHARED, k)
        common = (shift != 0).any(axis=0)
        alone, common = np.flatnonzero(~common), np.flatnonzero(common)
        return (alone, _plain_term(grid, line, alone),
                common, _node_term(grid, line, common, shift[:, common]))

    def without(self, j: int) -> np.ndarray:
        """(rows of line j, POINTS) the total as if line j did not exist."""
        rows, (alone, plain, common, nodes) = self.lines[j].rows, self.terms[j]
        left = self.total[rows]
        left[alone] -= plain
        if common.size:
            rest = self.joint[self.place[rows[common]]] - nodes
            left[common] = self.plain[rows[common]] + _mix(rest)
        return left


def _plain_term(grid, line, at):
    """(at, POINTS) with all of the line's uncertainty."""
    if not at.size:
        return np.zeros((0, POINTS))
    _, first, which = np.unique(line.same[at], return_index=True, return_inverse=True)
    one = at[first]
    d = np.log(line.value[one])[:, None] - grid.points(line.rows[one])
    term = log_likelihood(line.rule.kind, d, line.u_ln[one][:, None], line.rule.margin,
                          *line.doubt[:, one, None])
    return term[which.reshape(-1)]


def _node_term(grid, line, at, shift):
    """(at, nodes, coarse points) given each node of the shared quantities."""
    if not at.size:
        return np.zeros((0, len(NODE_WEIGHTS), POINTS // COARSE + 3))
    _, first, which = np.unique(line.same[at], return_index=True, return_inverse=True)
    one, shift = at[first], shift[:, first]
    # A quantity of SHARED that nobody else reads stays the line's own.
    apart = np.where(shift == 0, line.shared[:, one], 0.0)
    sigma = np.sqrt(line.sigma[one] ** 2 + apart[0] ** 2 + apart[1] ** 2)[:, None, None]
    moved = np.log(line.value[one]) + NODES[:, :1] * shift[0] + NODES[:, 1:] * shift[1]
    d = moved.T[:, :, None] - grid.coarse_points(line.rows[one])[:, None, :]
    term = log_likelihood(line.rule.kind, d, sigma, line.rule.margin,
                          *line.doubt[:, one, None, None])
    return term[which.reshape(-1)]


def _mix(joint):
    """(k, POINTS) ln of the mean likelihood over the nodes, node by node for equal bits."""
    top = joint.max(axis=1)
    total = np.zeros_like(top)
    for k, weight in enumerate(NODE_WEIGHTS.tolist()):
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


def hypothesis_edges(grid: Grid, case, claim):
    """(m, 5) the edges of the hypotheses' parts, in grid steps from the first point."""
    log = np.log(claim)[:, None] + np.log([1 / FAR, 1 / BELOW, MET, ABOVE, FAR])
    return (log - grid.start[case]) / grid.step[case]


def odds(likelihood, case, edges) -> np.ndarray:
    """(m,) odds of H1 against H0, even before any evidence.

    H0 is summed from below, H1 from above, so that a small integral is never the difference of
    two large ones.
    """
    far_below, below, met = _integral(likelihood, case, edges[:, :3])
    unmet = ((1 - BEYOND) * (met - below) / (edges[:, 2] - edges[:, 1])
             + (BEYOND * (below - far_below) + FARTHER * np.maximum(far_below, 0))
             / (edges[:, 1] - edges[:, 0]))
    met, above, far_above = _integral(likelihood[:, ::-1], case, POINTS - 1 - edges[:, 2:])
    met = ((1 - BEYOND) * (met - above) / (edges[:, 3] - edges[:, 2])
           + (BEYOND * (above - far_above) + FARTHER * np.maximum(far_above, 0))
           / (edges[:, 4] - edges[:, 3]))
    return np.maximum(met, 1e-290) / np.maximum(unmet, 1e-290)


def _integral(likelihood, case, edges):
    """(edges, m) from the first grid point to each edge, in steps; negative before the first.

    The likelihood is linear between grid points and constant outside: the integral to the point
    below, and a piece of a parabola.
    """
    total = np.zeros(likelihood.shape)
    np.cumsum(0.5 * (likelihood[:, 1:] + likelihood[:, :-1]), axis=-1, out=total[:, 1:])
    inside = np.clip(edges, 0, POINTS - 1)
    left = np.minimum(inside.astype(int), POINTS - 2)
    part, row = inside - left, case[:, None]
    at, after = likelihood[row, left], likelihood[row, left + 1]
    outside = (edges - inside) * np.where(edges < 0, at, after)
    return (total[row, left] + part * (at + 0.5 * part * (after - at)) + outside).T


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
