"""Habits of the trade: what power a size speaks of, before and after measured units are known."""
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from .mathml import EQ, TIMES, equation, frac, paren, power, sym, word
from .physics.robust_fit import huber_fit, prediction_half_width
from .rule import Rule
from .wording import rounded

LEAST_UNITS = 12          # below, and with less than LEAST_RANGE between sizes, the prior stays
LEAST_RANGE = 5.0
# A unit is seldom the only one of its batch, and its power is known to some per cent: a fit never
# makes a habit sharper than this. Our own choice. [ln]
LEAST_SPREAD = 0.10
BEYOND = 2.0              # a fit speaks to half of its smallest and twice its largest size
NORMAL_95 = 1.959964      # half of a normal's 95 % interval, in sd


@dataclass(frozen=True, slots=True)
class Habit:
    """A prior: straight in ln power over ln size between the points, power ∝ size beyond them.

    unit : of the size, as in the points and as a rule's function returns it: "g", "µF"
    points : (size [unit], power [W]), sizes ascending; one alone is a constant power a size
    ln_sd : how far a unit's power may lie from the curve, k = 1 [ln]
    symbol : MathML of the size
    """

    unit: str
    points: tuple[tuple[float, float], ...]
    ln_sd: float
    symbol: str = sym("S")

    def power(self, size: np.ndarray) -> np.ndarray:
        """(n,) float; NaN where the size is unknown or not positive. [W]"""
        x = _log(size)
        sizes, powers = (np.log(column) for column in zip(*self.points, strict=True))
        inside = np.clip(x, sizes[0], sizes[-1])
        return np.exp(np.interp(inside, sizes, powers) + (x - inside))

    def spread(self, size: np.ndarray) -> np.ndarray:
        """(n,) float, standard uncertainty of the power. [ln]"""
        return np.full(np.shape(size), self.ln_sd)

    @property
    def formula(self) -> str:
        """The curve of one or two points as MathML."""
        (size, watts), (last, most) = self.points[0], self.points[-1]
        slope = np.log(most / watts) / np.log(last / size) if last > size else 1.0
        return _law(self.symbol, size, self.unit, watts, slope)


@dataclass(frozen=True, slots=True)
class LearnedHabit:
    """A robust fit, ln P = a + b·(ln S − m), to units whose power was measured.

    intercept, slope : a [ln W], b        middle, square : mean m of ln S, Σ(ln S − m)²
    residual_sd : s, n − 2 degrees of freedom [ln]        n : units
    smallest, largest : size [unit]
    """

    unit: str
    intercept: float
    slope: float
    residual_sd: float
    n: int
    middle: float
    square: float
    smallest: float
    largest: float

    def power(self, size: np.ndarray) -> np.ndarray:
        """(n,) float; NaN where the size is unknown or not positive. [W]"""
        return np.exp(self.intercept + self.slope * (_log(size) - self.middle))

    def spread(self, size: np.ndarray) -> np.ndarray:
        """(n,) float: the normal sd with the 95 % interval of the next unit's power. [ln]"""
        away = _log(size) - self.middle
        leverage = 1 / self.n + away * away / self.square
        half = prediction_half_width(self.residual_sd, leverage, self.n - 2)
        return np.maximum(half / NORMAL_95, LEAST_SPREAD)

    def reaches(self, size: np.ndarray) -> np.ndarray:
        """(n,) bool, sizes near enough to those of the fit."""
        return (size >= self.smallest / BEYOND) & (size <= self.largest * BEYOND)

    def formula(self, symbol: str) -> str:
        """The fit as MathML, at its middle size."""
        return _law(symbol, float(np.exp(self.middle)), self.unit,
                    float(np.exp(self.intercept)), self.slope)


@dataclass(frozen=True, slots=True)
class ReferencedHabit:
    """The fit where it reaches, the prior elsewhere."""

    learned: LearnedHabit
    prior: Habit

    @property
    def unit(self) -> str:
        return self.prior.unit

    def power(self, size: np.ndarray) -> np.ndarray:
        """(n,) float [W]"""
        return np.where(self.learned.reaches(size), self.learned.power(size),
                        self.prior.power(size))

    def spread(self, size: np.ndarray) -> np.ndarray:
        """(n,) float [ln]"""
        return np.where(self.learned.reaches(size), self.learned.spread(size),
                        self.prior.spread(size))


def fit(rule: Rule, sizes: Sequence[float], powers: Sequence[float]) -> LearnedHabit | None:
    """The habit of measured units; None where they are too few, too alike, or show no habit.

    sizes, powers : (n,), of the same units in any order; pairs with an unknown are left out. More
    size with no more power is no habit: then the prior stays too.
    """
    size, watts = np.asarray(sizes, float), np.asarray(powers, float)
    known = (size > 0) & (watts > 0) & np.isfinite(size) & np.isfinite(watts)
    size, watts = size[known], watts[known]
    if len(size) < LEAST_UNITS or size.max() < LEAST_RANGE * size.min():
        return None
    order = np.lexsort((watts, size))            # the same units in another order: the same bits
    x, y = np.log(size[order]), np.log(watts[order])
    away = x - x.mean()
    found = huber_fit(np.stack([np.ones(len(x)), away], 1), y)
    intercept, slope = found.coefficients.tolist()
    if not slope > 0:
        return None
    return LearnedHabit(rule.habit.unit, intercept, slope, found.residual_sd, len(x),
                        float(x.mean()), float((away * away).sum()), float(size.min()),
                        float(size.max()))


def _log(size):
    return np.log(np.where(size > 0, size, np.nan))


def _law(symbol, size, unit, watts, slope):
    share = paren(frac(symbol, word(f"{rounded(size)} {unit}")))
    return equation(sym("P"), EQ, word(f"{rounded(watts)} W"), TIMES,
                    power(share, rounded(slope)))
