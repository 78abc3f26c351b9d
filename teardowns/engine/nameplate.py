"""What the printed outputs of a unit ask of it as a whole: its largest power, its mark."""
from collections.abc import Sequence
from dataclasses import dataclass
from math import isnan, nan

import numpy as np

from .physics.efficiency_regulation import (
    LOW_VOLTAGE,
    MULTIPLE_VOLTAGE,
    minimum_efficiency,
    no_load_limit,
    single_voltage_category,
)

MARKS = {4: "IV", 5: "V", 6: "VI"}
AGREED = 0.01        # a mean farther from a whole number means that the mark was read in two ways


@dataclass(frozen=True, slots=True)
class MarkLimits:
    """What a mark asks for, at the ends of what is open about the unit's category.

    A port that switches between voltages is tested at each of them; several ports at different
    voltages at the same time are another category. The plate does not say which reading is meant.
    """

    mark: str
    efficiency: tuple[float, float]      # least demanding, most demanding; NaN: nothing asked
    no_load: tuple[float, float]         # largest allowed, smallest allowed [W]


def largest_power(powers: Sequence[float]) -> float:
    """The largest claimed power; NaN where none is claimed. [W]"""
    return max((power for power in powers if not isnan(power)), default=nan)


def asked_by_mark(level: float, voltages: Sequence[float], currents: Sequence[float],
                  powers: Sequence[float]) -> MarkLimits | None:
    """What the printed mark asks of the printed outputs; None without a mark that is known."""
    number = _whole(level)
    if number not in MARKS:
        return None
    read = np.array(_categories(voltages, currents, powers)).reshape(-1, 2)
    watts, kinds = read[:, 0], read[:, 1]
    least, most = _ends(minimum_efficiency(watts, kinds, number))
    strict, loose = _ends(no_load_limit(watts, kinds, number))
    return MarkLimits(MARKS[number], (least, most), (loose, strict))


def _whole(level):
    return round(level) if abs(level - np.round(level)) < AGREED else None


def _categories(voltages, currents, powers):
    """(power, category) of every reading of the plate."""
    found = []
    for volts, amperes, watts in zip(voltages, currents, powers, strict=True):
        if not isnan(watts):
            amperes = watts / volts if isnan(amperes) and volts > 0 else amperes
            found.append((watts, int(single_voltage_category(volts, amperes))))
            if isnan(volts):
                found.append((watts, LOW_VOLTAGE))
    if found and (len(set(voltages)) > 1 or any(isnan(volts) for volts in voltages)):
        found.append((largest_power(powers), MULTIPLE_VOLTAGE))
    return found


def _ends(values):
    known = values[~np.isnan(values)]
    return (float(known.min()), float(known.max())) if known.size else (nan, nan)
