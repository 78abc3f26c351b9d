"""The likelihood of all evidence on a log grid, and what follows from it."""
from dataclasses import dataclass

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from .likelihoods import LOG_LIKELIHOOD
from .lines import NODE_WEIGHTS, Line

POINTS = 240        # of the grid
PAD = 40            # points beyond each end, so that a line can be shifted by its nodes
BELOW, MET, ABOVE = 30.0, 0.95, 1.6     # of a claim: H0 from c/30 to 0.95 c, H1 to 1.6 c
# A charger's lesser claims lie far below what it can do, and a gross one far above. Without a
# share of each prior beyond the usual range, a load of twice the claim, held, would fit neither
# hypothesis and say nothing.
BEYOND, FAR = 0.2, 1000.0               # share of each prior, out to c/1000 and 1000 c
UNCLAIMED = (0.2, 300.0)                # W; the grid of a unit without claims
WIDER = (3.0, 1.6)                      # the grid reaches beyond the lowest, highest line


@dataclass(frozen=True, slots=True)
class Grid:
    """x = ln C at POINTS equal steps for each case: start (k, 1), step (k, 1)."""

    start: np.ndarray
    step: np.ndarray

    def points(self, rows=slice(None), pad=0) -> np.ndarray:
        """(k, POINTS + 2·pad)"""
        return self.start[rows] + self.step[rows] * np.arange(-pad, POINTS + pad, dtype=float)


def make_grid(smallest, largest, lines_by_end) -> Grid:
    """A grid a case that spans its claims and its lines.

    smallest, largest : (k,) float, claimed powers, NaN without a claim [W]
    """
    low = np.where(np.isnan(smallest), UNCLAIMED[0], smallest / BELOW)
    high = np.where(np.isnan(largest), UNCLAIMED[1], largest * ABOVE)
    for line in (line for lines in lines_by_end for line in lines):
        low[line.rows] = np.minimum(low[line.rows], line.value / WIDER[0])
        high[line.rows] = np.maximum(high[line.rows], line.value * WIDER[1])
    start = np.log(low)
    return Grid(start[:, None], ((np.log(high) - start) / (POINTS - 1))[:, None])


class LogEvidence:
    """ln of the likelihood of every line on the grid, summed, with any one left out.

    A quantity that several lines of a case share (SHARED) is integrated over jointly, node by
    node. Where only one line reads it, it is that line's own uncertainty: a normal error more.
    """

    def __init__(self, grid: Grid, lines: tuple[Line, ...]):
        size = len(grid.start)
        self.lines = lines
        sharing = np.zeros(size, int)
        for line in lines:
            if line.shifts is not None:
                sharing[line.rows] += 1
        shared = sharing > 1
        self.plain = np.zeros((size, POINTS))
        self.place = np.cumsum(shared) - 1          # of a case among the shared ones
        self.joint = np.zeros((np.count_nonzero(shared), len(NODE_WEIGHTS), POINTS))
        self.alone, self.common = [], []            # of each line: (places in line.rows, terms)
        for line in lines:
            is_common = shared[line.rows] & (line.shifts is not None)
            alone, common = np.flatnonzero(~is_common), np.flatnonzero(is_common)
            self.alone.append((alone, _plain_term(grid, line, alone)))
            self.common.append((common, _node_term(grid, line, common)))
            self.plain[line.rows[alone]] += self.alone[-1][1]
            self.joint[self.place[line.rows[common]]] += self.common[-1][1]
        self.total = self.plain.copy()
        self.total[shared] += _mix(self.joint)

    def without(self, j: int) -> np.ndarray:
        """(rows of line j, POINTS) the total as if line j did not exist."""
        rows, (alone, own), (common, nodes) = self.lines[j].rows, self.alone[j], self.common[j]
        left = self.total[rows]
        left[alone] -= own
        if common.size:
            rest = self.joint[self.place[rows[common]]] - nodes
            left[common] = self.plain[rows[common]] + _mix(rest)
        return left


def _plain_term(grid, line, at):
    """(at, POINTS) with all of the line's uncertainty."""
    d = np.log(line.value[at])[:, None] - grid.points(line.rows[at])
    return LOG_LIKELIHOOD[line.rule.kind](d, line.u_ln[at][:, None], line.rule.margin)


def _node_term(grid, line, at):
    """(at, nodes, POINTS) given each node of the shared quantities."""
    if not at.size:
        return np.zeros((0, len(NODE_WEIGHTS), POINTS))
    rows = line.rows[at]
    d = np.log(line.value[at])[:, None] - grid.points(rows, PAD)
    log = LOG_LIKELIHOOD[line.rule.kind](d, line.sigma[at][:, None], line.rule.margin)
    return _shifted(log, line.shifts[at] / grid.step[rows])


def _shifted(log, steps):
    """(k, nodes, POINTS) the padded curve moved right by so many grid steps, cubic between."""
    steps = np.clip(-steps, 3 - PAD, PAD - 3)
    whole = np.floor(steps)
    f = (steps - whole)[:, :, None]
    windows = sliding_window_view(log, POINTS, axis=1)
    first = whole.astype(int) + PAD - 1
    row = np.arange(len(log))[:, None]
    return ((-f * (f - 1) * (f - 2) / 6) * windows[row, first]
            + ((f + 1) * (f - 1) * (f - 2) / 2) * windows[row, first + 1]
            + (-(f + 1) * f * (f - 2) / 2) * windows[row, first + 2]
            + ((f + 1) * f * (f - 1) / 6) * windows[row, first + 3])


def _mix(joint):
    """(k, POINTS) ln of the mean likelihood over the nodes, node by node for equal bits."""
    top = joint.max(axis=1)
    total = np.zeros_like(top)
    for k, weight in enumerate(NODE_WEIGHTS.tolist()):
        total += weight * np.exp(joint[:, k] - top)
    return np.log(total) + top


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
             + BEYOND * (below - far_below) / (edges[:, 1] - edges[:, 0]))
    met, above, far_above = _integral(likelihood[:, ::-1], case, POINTS - 1 - edges[:, 2:])
    met = ((1 - BEYOND) * (met - above) / (edges[:, 3] - edges[:, 2])
           + BEYOND * (above - far_above) / (edges[:, 4] - edges[:, 3]))
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
