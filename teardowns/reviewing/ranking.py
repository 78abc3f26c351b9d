"""The order of the review queue: risk × reach × uncertainty × age, with its reasons in words.

The factors and their figures are a rule of our own, no published one. Each is at least 1, so that
none silences the others; each is documented where it is computed, and a queue prints its reasons.
"""
from __future__ import annotations

from dataclasses import dataclass
from math import log10

RISK = {0: 1.0, 1: 2.0, 2: 4.0, 3: 8.0, 4: 16.0}      # by level: none, low, medium, high, serious
LEVELS = ("", "a low", "a medium", "a high", "a serious")
FLAGGED = 1.5                # something falls short or is flagged, and nobody gave it a level
UNKNOWN_REACH = 100          # sales: what a listing that nobody read is taken to show
SHARED = 0.25                # somebody has it open already, and one pair of eyes is enough
WEEK = 7.0                   # days
SERIOUS = 4


@dataclass(frozen=True, slots=True)
class Waiting:
    """What the queue knows of one unit: columns of its stored assessments, and dates."""

    days: float                               # since it was sent in
    risk: int = 0                             # 0 none, 1 low … 4 serious
    flags: int = 0                            # points that can hurt and have no level
    reach: int | None = None                  # sales that its listing shows; None: not known
    plausibility: float | None = None         # of the largest claim, from all evidence
    confirmed: float | None = None            # the same from confirmed evidence; None: no verdict
    is_held: bool = False                     # somebody is reviewing it


@dataclass(frozen=True, slots=True)
class Rank:
    score: float
    reasons: tuple[str, ...]


def rank(unit: Waiting) -> Rank:
    """The product of the factors, and the reasons for it, in that order."""
    factors = (_risk(unit), _reach(unit), _uncertainty(unit), _age(unit), _held(unit))
    score = 1.0
    for factor, _ in factors:
        score *= factor
    return Rank(score, tuple(words for _, words in factors if words))


def _risk(unit):
    """Doubles with each level; a shortfall without a level stands between none and low."""
    if unit.risk:
        return RISK[unit.risk], f"{LEVELS[unit.risk]} finding"
    if unit.flags:
        points = "a point" if unit.flags == 1 else f"{unit.flags} points"
        return FLAGGED, f"{points} without a level"
    return 1.0, "no finding"


def _reach(unit):
    """One more for every power of ten of its sales; unknown is no zero: it counts as a hundred."""
    if unit.reach is None:
        return 1.0 + log10(1 + UNKNOWN_REACH), "reach not known"
    return 1.0 + log10(1 + unit.reach), f"its listing shows {_grouped(unit.reach)} sales"


def _uncertainty(unit):
    """From 1, where the unconfirmed rows move nothing and the verdict is sure, to 3.

    One part is how far the plausibility would move with the unconfirmed rows, the whole way where
    confirmed evidence gives no verdict; the other is how undecided all evidence leaves it,
    4 p (1 − p), which is 1 at even odds and 0 at certainty.
    """
    if unit.plausibility is None:
        return 2.0, "no claim judged yet"
    p = unit.plausibility
    moved = 1.0 if unit.confirmed is None else abs(p - unit.confirmed)
    undecided = 4.0 * p * (1.0 - p)
    if moved >= 0.25:
        words = "the verdict hangs on unconfirmed rows"
    elif undecided >= 0.64:                   # between 0.2 and 0.8
        words = "the evidence leaves the claim undecided"
    else:
        words = "confirmed evidence says the same"
    return 1.0 + moved + undecided, words


def _age(unit):
    """One more with every week of waiting, so that nothing waits for good."""
    days = max(unit.days, 0.0)
    whole = int(days)
    words = "sent in today" if whole == 0 else f"waiting {whole} day{'s' if whole != 1 else ''}"
    return 1.0 + days / WEEK, words


def _held(unit):
    """A serious finding needs two people: there a second one is as welcome as the first."""
    return (SHARED if unit.is_held and unit.risk < SERIOUS else 1.0), ""


def _grouped(count):
    return f"{count:,}".replace(",", "\u202f")
