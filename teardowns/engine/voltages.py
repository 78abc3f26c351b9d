"""The posterior of the highest output voltage, one claim at a time."""
from dataclasses import dataclass

import numpy as np

from .cases import OUTPUT_VOLTAGE
from .claims import FIXED_VOLTAGE, ClaimTable, largest_by_unit
from .columns import Frame, exact
from .conditions import SAME_VOLTAGE, Observations, at_ports, refused
from .defaults import fill_conditioned
from .likelihoods import log_likelihood
from .lines import Line, draw_lines
from .physics.feedback import FLAGS
from .posterior import BEYOND, FAR, MET, density
from .rule import Rule

LOWEST = 4.5                      # V; H0 runs from here to 0.95 of the claim
# Of an output that has to be switched and is not, the share that stays at 5 V altogether. Every
# source starts there, and one that cannot be switched has nothing else; our own choice.
STAYS_AT_5V = 0.7
# A claimed voltage is one that the regulation holds, so that little above it is as likely as it
# is; higher ones are other levels of the same port.
ABOVE = 1.1
POINTS = (32, 48, 24, 64)         # to 5.5 V, to 0.95, to 1.1 and to 1000 of the claim
EDGES = np.cumsum((0, *POINTS))


@dataclass(frozen=True, slots=True)
class VoltageEvidence:
    """claim (v,) int, the claims above 5.5 V; x (v, points) ln U; lines over these claims.

    switched : (v,) bool, the output has to be switched to give this voltage
    stays : (v,) float, the share of H0 that stays at 5 V
    """

    claim: np.ndarray
    frame: Frame                       # (v,) the columns as the lines read them
    x: np.ndarray
    lines: tuple[Line, ...]
    terms: tuple[np.ndarray, ...]
    total: np.ndarray
    switched: np.ndarray
    stays: np.ndarray

    @property
    def odds(self) -> np.ndarray:
        """(v,) that the voltage is available; even before any evidence."""
        return _odds(self.total, self.stays)

    def odds_without(self, j: int) -> np.ndarray:
        rows = self.lines[j].rows
        return _odds(self.total[rows] - self.terms[j], self.stays[rows])


def voltage_evidence(claims: ClaimTable, frame: Frame, seen: Observations,
                     rules: tuple[Rule, ...], several: np.ndarray) -> VoltageEvidence:
    """claims : sorted by unit; several : (n,) bool, units with more than one port"""
    claim = np.flatnonzero(claims.voltage > FIXED_VOLTAGE)
    voltage = claims.voltage[claim]
    columns = _frame_at(frame, claims.take(claim), seen, several)
    switched = has_to_switch(claims, frame.size)[claim]
    columns = _without_feedback(columns, ~switched)
    lines = draw_lines(rules, columns)
    x = _grid(voltage)
    terms = tuple(_term(line, x) for line in lines)
    total = np.zeros_like(x)
    for line, term in zip(lines, terms, strict=True):
        total[line.rows] += term
    # One voltage on a plug of its own: lower ones are equally likely, ratio by ratio.
    even = (np.log(FIXED_VOLTAGE) - x[:, 0]) / (x[:, EDGES[2] - 1] - x[:, 0])
    stays = np.where(switched, STAYS_AT_5V, np.clip(even, 0, 1))
    return VoltageEvidence(claim, columns, x, lines, terms, total, switched, stays)


def _frame_at(frame, claims, seen, several):
    unit, voltage, port, several = claims.row, claims.voltage, claims.port, several[claims.row]
    columns = frame.take(unit)
    columns = at_ports(columns, seen, unit, port, several).with_columns(
        {OUTPUT_VOLTAGE: exact(voltage), "mains_voltage": columns["mains_high"]})
    columns = fill_conditioned(columns)
    denied = refused(seen, unit, voltage, port, several)
    offered = columns["offered_voltage"]
    # A 20 V contract does not show 12 V where 12 V itself was asked for and not given.
    beside = ~np.isnan(denied.value) & ~(np.abs(offered.value / voltage - 1) <= SAME_VOLTAGE)
    return columns.with_columns(
        {"refused_voltage": denied, "offered_voltage": offered.blank(beside)})


USB = ("usb_a", "usb_c", "micro_b")
SPREAD = 1.1        # the highest over the lowest voltage, from which on they are several


def has_to_switch(claims, n):
    """(m,) Whether a claim takes an output that can be switched.

    It does on a USB port, which starts at 5 V, and for a unit that claims several voltages. A
    12 V adapter is simply designed for 12 V.
    """
    highest = largest_by_unit(claims.row, claims.voltage, n)
    lowest = -largest_by_unit(claims.row, -claims.voltage, n)
    several = highest > SPREAD * lowest
    usb = np.array([name.startswith(USB) for name in claims.connector], bool)
    return usb | several[claims.row]


def _without_feedback(frame, here):
    """The frame with the feedback observations blank in the rows `here`."""
    return frame.with_columns({name: frame[name].blank(here) for name in FLAGS})


def _grid(voltage):
    """(v, points) ln U from 4.5 V on, each of the four parts in equal steps."""
    log = np.log(voltage)[:, None]
    met = log + np.log(MET)
    edges = (np.full_like(log, np.log(LOWEST)), np.minimum(np.log(FIXED_VOLTAGE), met), met,
             log + np.log(ABOVE), log + np.log(FAR))
    return np.concatenate([
        start + (stop - start) * np.linspace(0, 1, n)
        for start, stop, n in zip(edges, edges[1:], POINTS, strict=False)], 1)


def _term(line, x):
    centre = line.value
    if line.rule.kind == "switch":
        centre = np.full(len(line.rows), FIXED_VOLTAGE)
    d = np.log(centre)[:, None] - x[line.rows]
    return log_likelihood(line.rule.kind, d, line.u_ln[:, None], line.rule.margin,
                          *line.doubt[:, :, None])


def _odds(log, stays):
    likelihood = density(log)
    at_5v, between, near, beyond = (
        _mean(np.ascontiguousarray(likelihood[:, first:last]))
        for first, last in zip(EDGES, EDGES[1:], strict=False))
    met = (1 - BEYOND) * near + BEYOND * beyond
    unmet = stays * at_5v + (1 - stays) * between
    return np.maximum(met, 1e-290) / np.maximum(unmet, 1e-290)


def _mean(values):
    """Trapezoid mean over equal steps."""
    ends = 0.5 * (values[:, 0] + values[:, -1])
    return (values.sum(axis=-1) - ends) / (values.shape[1] - 1)
