"""Meets, falls short or cannot tell: what an observation says beside a tabulated figure.

Every requirement is worked out twice, under the most lenient and under the most demanding of the
documented assumptions. A grade holds only where it holds under both.
"""
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np
from scipy.special import ndtr

MEETS, CANNOT_TELL, FALLS_SHORT = 1, 0, -1
GRADES = {MEETS: "meets", CANNOT_TELL: "cannot tell", FALLS_SHORT: "falls short"}
CONFIDENCE = ("A", "B", "C")     # two published sources agree; one was read; from memory
FROM_MEMORY = CONFIDENCE.index("C")
OF_THE_RULE = -1                 # in place of a confidence: as the rule says in general
COVERAGE = 2.0                   # expanded over standard uncertainty
# Of a limit: what differs from it by less lies on it. 0.3 mm and 0.1 mm are less than 0.4 mm to a
# computer, by 6e-17 m.
SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Graded:
    """What one rule says of each of its subjects.

    grade : (m,) int8, key of GRADES
    value : (m,) float, what was compared, in the rule's unit; NaN where there is no number
    u : (m,) float, its expanded uncertainty, same unit
    low, high : (m,) float, the requirement under the most lenient and the most demanding
        assumptions; of a largest allowed value `low` is the stricter limit, `high` the more
        permissive one; NaN where nothing is required
    applies : (m,) bool, whether the rule has anything to say of the subject
    why : (m,) int8, index into the rule's `reasons`
    confidence : (m,) int8, index into CONFIDENCE: how well the requirement is known
    assumed : by name of an assumption (engine.assumptions), (m,) bool: taken for granted here
    numbers : what the requirement was made from, for the working; (m,) float each, SI
    """

    grade: np.ndarray
    value: np.ndarray
    u: np.ndarray
    low: np.ndarray
    high: np.ndarray
    applies: np.ndarray
    why: np.ndarray
    confidence: np.ndarray
    assumed: Mapping[str, np.ndarray] = field(default_factory=dict)
    numbers: Mapping[str, np.ndarray] = field(default_factory=dict)

    @property
    def worded(self) -> np.ndarray:
        """The grade as it may be said: a figure known from memory words no shortfall."""
        from_memory = (self.grade == FALLS_SHORT) & (self.confidence == FROM_MEMORY)
        return np.where(from_memory, CANNOT_TELL, self.grade).astype(np.int8)

    @property
    def flagged(self) -> np.ndarray:
        """(m,) bool: falls short of a figure known from memory, so that a reviewer should look."""
        return self.worded != self.grade

    def known_as(self, confidence: str) -> "Graded":
        """With the confidence of the rule wherever none was given."""
        general = CONFIDENCE.index(confidence)
        own = np.where(self.confidence == OF_THE_RULE, np.int8(general), self.confidence)
        return replace(self, confidence=own)

    def take(self, rows) -> "Graded":
        return Graded(**{name: getattr(self, name)[rows] for name in _COLUMNS},
                      assumed={name: part[rows] for name, part in self.assumed.items()},
                      numbers={name: part[rows] for name, part in self.numbers.items()})

    @classmethod
    def joined(cls, parts: "list[Graded]") -> "Graded":
        """One after the other."""
        def joined(columns):
            return {name: np.concatenate([column[name] for column in columns])
                    for name in columns[0]}

        return cls(**joined([{name: getattr(part, name) for name in _COLUMNS} for part in parts]),
                   assumed=joined([part.assumed for part in parts]),
                   numbers=joined([part.numbers for part in parts]))


_COLUMNS = ("grade", "value", "u", "low", "high", "applies", "why", "confidence")


def graded(grade, *, value=np.nan, u=np.nan, low=np.nan, high=np.nan, applies=True, why=0,
           confidence=OF_THE_RULE, assumed: Mapping | None = None,
           numbers: Mapping | None = None) -> Graded:
    """A `Graded` whose parts are brought to the shape of `grade`; a single value stands for all."""
    shape = np.shape(grade)

    def column(part, kind=float):
        whole = np.empty(shape, kind)
        whole[...] = part
        return whole

    return Graded(
        column(grade, np.int8), column(value), column(u), column(low), column(high),
        column(applies, bool), column(why, np.int8), column(confidence, np.int8),
        {name: column(part, bool) for name, part in (assumed or {}).items()},
        {name: column(part) for name, part in (numbers or {}).items()})


def grade_min(value, u, low, high) -> np.ndarray:
    """Of what must be at least so much: distances, thickness, ratings.

    value, u : (m,) float, the observation and its expanded uncertainty
    low, high : (m,) float, the requirement under lenient and under demanding assumptions

    (m,) int8; cannot tell wherever an input is NaN.
    """
    meets, short = value - u >= _just_below(high), value + u < _just_below(low)
    return _either(meets & ~np.isnan(low), short & ~np.isnan(high))


def grade_span(shortest, longest, u, low, high) -> np.ndarray:
    """Of what must be at least so much and whose own length depends on what is assumed: it meets
    by the shortest, it falls short by the longest."""
    meets = grade_min(shortest, u, low, high) == MEETS
    short = grade_min(longest, u, low, high) == FALLS_SHORT
    return _either(meets & ~np.isnan(longest), short & ~np.isnan(shortest))


def grade_max(value, u, strict, permissive) -> np.ndarray:
    """Of what must be at most so much: currents, temperatures, voltages.

    strict, permissive : (m,) float, the limit under demanding and under lenient assumptions

    (m,) int8; cannot tell wherever an input is NaN.
    """
    meets, short = value + u <= _just_above(strict), value - u > _just_above(permissive)
    return _either(meets & ~np.isnan(permissive), short & ~np.isnan(strict))


def chance_short(value, u, required, largest: bool = False) -> np.ndarray:
    """How likely the true value misses the requirement, by the reading's own scatter. [1]

    value, u : (m,) float, reading and expanded uncertainty (two standard ones)
    largest : the requirement is the largest allowed value
    """
    gap = (value - required) if largest else (required - value)
    step = np.where(gap > 0, 1.0, 0.0)
    spread = np.where(u > 0, ndtr(gap * COVERAGE / np.where(u > 0, u, 1.0)), step)
    return np.where(np.isnan(gap) | np.isnan(u), np.nan, spread)


def _just_below(limit):
    return limit * (1.0 - SAME * np.sign(limit))


def _just_above(limit):
    return limit * (1.0 + SAME * np.sign(limit))


def _either(meets, short):
    return np.where(meets, MEETS, np.where(short, FALLS_SHORT, CANNOT_TELL)).astype(np.int8)
