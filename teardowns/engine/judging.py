"""Every claim of some units against all lines of evidence, at both mains ends."""
from dataclasses import dataclass

import numpy as np

from .cases import Cases, frame_at, make_cases
from .claims import ClaimTable
from .columns import Frame
from .conditions import SAME_VOLTAGE, Observations
from .likelihoods import log_likelihood
from .lines import Line, draw_at_ends
from .mistakes import shared_readings
from .port_trips import without_port_trips
from .posterior import (
    MET,
    QUANTILES,
    Grid,
    LogEvidence,
    density,
    hypothesis_weights,
    make_grid,
    odds,
    quantiles,
)
from .rule import FAILED, LIMIT, PASSED, PRACTICE
from .rulebook import Rulebook
from .verdicts import (
    CONFLICT,
    NEAR,
    decibans,
    joint_odds,
    plausibility,
    verdict_words,
)
from .voltages import VoltageEvidence, voltage_evidence

ENDS = ("low", "high")
JUST_MET = np.linspace(np.log(MET), np.log(1.1), 9)     # ln of capability over claim


@dataclass(frozen=True, slots=True)
class Judged:
    """The published numbers of the claims (m,) and of the units (n,)."""

    plausibility: np.ndarray           # (m,) at the low mains end, for the range has to hold
    plausibility_high: np.ndarray      # (m,) at the high end
    plausibility_power: np.ndarray     # (m,) low end; NaN: the claim states no power
    plausibility_voltage: np.ndarray   # (m,) NaN: no voltage above 5.5 V is claimed
    total: np.ndarray                  # (m,) decibans, low end
    weights: np.ndarray                # (m, lines) decibans, low end; NaN: line not used
    verdict: np.ndarray                # (m,) index into verdicts.WORDS
    conflict: np.ndarray               # (m, 2) indices of contradicting lines, −1 for none
    capability: np.ndarray             # (n, 2, 3) ends; median, 5 %, 95 %; NaN: no line [W]

    @classmethod
    def blank(cls, claims: int, lines: int, units: int) -> "Judged":
        """Room for the numbers of so many, which `put` writes."""
        p_low, p_high, p_power, p_voltage, total = np.empty((5, claims))
        return cls(p_low, p_high, p_power, p_voltage, total, np.empty((claims, lines)),
                   np.empty(claims, int), np.empty((claims, 2), int),
                   np.empty((units, len(ENDS), len(QUANTILES))))

    def put(self, part: "Judged", claims: np.ndarray, units: slice) -> None:
        """Write some numbers to the places of their claims and of their units."""
        for name in self.__slots__:
            getattr(self, name)[units if name == "capability" else claims] = getattr(part, name)


@dataclass(frozen=True, slots=True)
class Spoken:
    """The lines that speak for a unit, and what they come to together: (k, points)."""

    lines: tuple[Line, ...]
    total: np.ndarray


@dataclass(frozen=True, slots=True)
class Examined:
    """Everything behind `Judged`, kept when reports are written; see `examined_units`."""

    judged: Judged
    cases: Cases
    grid: Grid
    frames: tuple[Frame, ...]                         # of the cases, by end
    power: tuple[LogEvidence | Spoken, ...]           # by end
    voltage: VoltageEvidence


@np.errstate(invalid="ignore", divide="ignore", over="ignore", under="ignore")
def examine(frame: Frame, claims: ClaimTable, seen: Observations, rules: Rulebook,
            several: np.ndarray) -> Examined:
    """frame : (n,) units; claims : sorted by row, rows 0 to n − 1; several : (n,) bool, ports"""
    seen, less_was_lost = without_port_trips(seen, claims, several)
    cases = make_cases(claims, frame, seen, rules.power, several)
    columns = frame.take(cases.unit)
    frames = tuple(frame_at(columns, cases, seen, end == "high") for end in ENDS)
    drawn = draw_at_ends(rules.power, frames, cases.unit)
    smallest, largest = cases.span(claims)
    grid = make_grid(cases.unit, smallest, largest, drawn)
    shared = [shared_readings(lines, at) for lines, at in zip(drawn, frames, strict=True)]
    low = LogEvidence(grid, drawn[0], cases.unit, readings=shared[0])
    power = (low, LogEvidence(grid, drawn[1], cases.unit, beside=low, readings=shared[1]))
    voltage = voltage_evidence(claims, frame, seen, rules.voltage, several)
    judged = _judge(claims, cases, grid, power, voltage, rules, less_was_lost)
    return Examined(judged, cases, grid, frames, power, voltage)


def _judge(claims, cases, grid, power, voltage, rules, less_was_lost):
    likelihood = [evidence.likelihood for evidence in power]
    hypotheses = hypothesis_weights(grid, cases.of_claim, claims.claimed_power)
    has_power = ~np.isnan(claims.claimed_power)
    overload = [_overload(cases, grid, at.lines, hypotheses, claims.claimed_power) for at in power]
    low, high = (np.where(has_power, odds(at, cases.of_claim, hypotheses) * factor, np.nan)
                 for at, factor in zip(likelihood, overload, strict=True))
    volts = np.full(len(low), np.nan)
    volts[voltage.claim] = voltage.odds
    switched = np.ones(len(low), bool)
    switched[voltage.claim] = voltage.switched
    total = decibans(_joint(low, volts, switched))
    # What a line moves the claim by is told as if no shared reading were mistaken: of two lines
    # that one slip may have made, leaving out either one alone would change nothing.
    right = np.where(has_power, odds(power[0].if_right, cases.of_claim, hypotheses) * overload[0],
                     np.nan)
    as_read = decibans(_joint(right, volts, switched))
    weights = np.concatenate([
        as_read[:, None] - _power_weights(cases, power[0], hypotheses, volts, switched, has_power,
                                          overload[0]),
        total[:, None] - _voltage_weights(voltage, low, volts)], axis=1)
    conflict = _conflicts(cases, power, voltage)
    p_low, p_high = (plausibility(_joint(at, volts, switched)) for at in (low, high))
    kinds = np.array([rule.kind for rule in rules.lines], dtype=str)
    lesser = claims.voltage < (1 - SAME_VOLTAGE) * cases.highest[cases.of_claim]
    of_power = np.array([rule.on == "power" for rule in rules.lines], dtype=bool)
    share = np.concatenate([_shares(power[0].lines, cases.of_claim, claims.claimed_power),
                            _voltage_shares(voltage, claims.voltage)], axis=1)
    # What shows a value of the claim's own kind: a test that was passed, a voltage in a list.
    shows = (kinds == PASSED) | (kinds == PRACTICE) & ~of_power
    near = shows & (share >= NEAR)
    unseen = np.zeros(len(low), bool)
    unseen[voltage.claim] = voltage.switched & ~(near & ~of_power)[voltage.claim].any(axis=1)
    words = verdict_words(p_low, p_high, total, weights, kinds, conflict[:, 0] >= 0, lesser,
                          plausibility(low), of_power, less_was_lost,
                          shows & (share < NEAR), unseen)
    return Judged(p_low, p_high, plausibility(low), plausibility(volts), total, weights,
                  words, conflict, _capability(cases, grid, power, likelihood))


def _overload(cases, grid, lines, hypotheses, claimed):
    """(m,) What a load that was lost is given back, for a charger may stop just above its claim.

    H1 reaches to 1.6 of the claim only for want of knowledge. Regulation lost at 1.2 of it is an
    ordinary overload trip and no word against the claim: what counts is whether a unit that just
    meets the claim, with 0.95 to 1.1 of it, would have lost the load.
    """
    factor = np.ones(len(claimed))
    for line in lines:
        if line.rule.kind == FAILED and line.rows.size:
            place = np.full(len(cases.unit), -1)
            place[line.rows] = np.arange(len(line.rows))
            place = place[cases.of_claim]
            mine = np.flatnonzero((place >= 0) & ~np.isnan(claimed))
            at = place[mine]
            d = np.log(line.value[at] / claimed[mine])[:, None] - JUST_MET
            just_met = np.exp(_failing(line, d, at)).mean(axis=-1)
            below = np.log(line.value)[:, None] - grid.points(line.rows)
            alone = np.exp(_failing(line, below, slice(None)))
            factor[mine] *= just_met / odds(alone, at, hypotheses[:, mine])
    return factor


def _failing(line, d, at):
    """The likelihood of a failed test at some places of its line; d : (at, …)"""
    return log_likelihood(FAILED, d, line.sigma[at][:, None], None,
                          *np.ascontiguousarray(line.doubt[:, at])[:, :, None])


def _joint(power, voltage, switched):
    """Joint odds; a claim of neither power nor voltage stays at even odds."""
    joint = joint_odds(power, voltage, switched)
    return np.where(np.isnan(joint), 1.0, joint)


def _shares(lines, case, claimed):
    """(m, lines) each line's value over the claim; NaN: unused or nothing claimed."""
    share = np.full((len(case), len(lines)), np.nan)
    for j, line in enumerate(lines):
        value = np.full(int(case.max(initial=-1)) + 1, np.nan)
        inside = line.rows < len(value)
        value[line.rows[inside]] = line.value[inside]
        share[:, j] = value[case] / claimed
    return share


def _voltage_shares(voltage, claimed):
    share = np.full((len(claimed), len(voltage.lines)), np.nan)
    for j, line in enumerate(voltage.lines):
        mine = voltage.claim[line.rows]
        share[mine, j] = line.value / claimed[mine]
    return share


def _power_weights(cases, evidence, hypotheses, volts, switched, has_power, overload):
    """(m, power lines) decibans of the joint odds when each line is left out; NaN: unused."""
    left = np.full((len(volts), len(evidence.lines)), np.nan)
    for j, line in enumerate(evidence.lines):
        if not line.rows.size:
            continue
        place = np.full(len(cases.unit), -1)
        place[line.rows] = np.arange(len(line.rows))
        place = place[cases.of_claim]
        mine = np.flatnonzero((place >= 0) & has_power)
        if mine.size:
            part = odds(density(evidence.without(j)), place[mine], hypotheses[:, mine])
            part *= 1.0 if line.rule.kind == FAILED else overload[mine]
            left[mine, j] = decibans(_joint(part, volts[mine], switched[mine]))
    return left


def _voltage_weights(voltage, low, volts):
    left = np.full((len(low), len(voltage.lines)), np.nan)
    for j, line in enumerate(voltage.lines):
        mine = voltage.claim[line.rows]
        left[mine, j] = decibans(
            _joint(low[mine], voltage.odds_without(j), voltage.switched[line.rows]))
    return left


def _conflicts(cases, power, voltage):
    """(m, 2) the pair of lines that contradict each other most, of each claim; −1 for none.

    A test that was passed well above a limit, or above a test that was failed in the same
    conditions: one of the two observations is wrong.
    """
    worst = np.full(len(cases.of_claim), CONFLICT)
    pair = np.full((len(cases.of_claim), 2), -1)
    for evidence in power:
        for j, k, excess in _excesses(evidence.lines, len(cases.unit)):
            excess = excess[cases.of_claim]
            pair[excess > worst] = j, k
            worst = np.fmax(worst, excess)
    offset = len(power[0].lines)
    for j, k, excess in _excesses(voltage.lines, len(voltage.claim)):
        above = voltage.claim[excess > worst[voltage.claim]]
        pair[above] = offset + j, offset + k
        worst[voltage.claim] = np.fmax(worst[voltage.claim], excess)
    return pair


def _excesses(lines: tuple[Line, ...], size: int):
    """Each passed test against each limit and failed test, in combined uncertainties."""
    dense = {}
    for j, line in enumerate(lines):
        if line.rows.size and line.rule.kind in (PASSED, LIMIT, FAILED):
            log, u = np.full(size, np.nan), np.full(size, np.nan)
            log[line.rows], u[line.rows] = np.log(line.value), line.u_ln
            dense[j] = log, u
    for j, (log, u) in dense.items():
        for k, (other, other_u) in dense.items():
            if lines[j].rule.kind == PASSED and lines[k].rule.kind != PASSED:
                yield j, k, (log - other) / np.sqrt(u * u + other_u * other_u)


def _capability(cases, grid, power, likelihood):
    """(n, 2, 3) at the headline claim's case; NaN where no line speaks."""
    found = []
    for evidence, at in zip(power, likelihood, strict=True):
        spoken = np.zeros(len(cases.unit), bool)
        for line in evidence.lines:
            spoken[line.rows] = True
        values = np.where(spoken[:, None], quantiles(grid, at), np.nan)
        found.append(values[cases.headline])
    return np.stack(found, 1)
