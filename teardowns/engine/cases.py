"""A case is what one posterior answers for: a unit, or a unit at one output voltage.

Most units are one case for all their claims. Where a line depends on the claim's voltage (a
load test that was lost at 5 V says nothing about 20 V) each claimed voltage is a case.
"""
from dataclasses import dataclass

import numpy as np

from .claims import ClaimTable, largest_by_unit
from .columns import Column, Frame, exact
from .conditions import HELD, LOST, Observations, effective_voltage, held, is_multi_voltage, lost
from .rule import Rule

OUTPUT_VOLTAGE = "output_voltage"


@dataclass(frozen=True, slots=True)
class Cases:
    """unit (k,) ascending; voltage (k,) of the claims [V]; of_claim (m,); headline (n,)."""

    unit: np.ndarray
    voltage: np.ndarray
    of_claim: np.ndarray
    headline: np.ndarray           # the case of the unit's largest claim
    highest: np.ndarray            # (k,) the unit's highest claimed voltage, NaN: none [V]

    def span(self, claims: ClaimTable):
        """(k,), (k,): the smallest and largest claimed power of each case; NaN without."""
        power, size = claims.claimed_power, len(self.unit)
        return (-largest_by_unit(self.of_claim, -power, size),
                largest_by_unit(self.of_claim, power, size))


def headline_claims(claims: ClaimTable, n: int) -> np.ndarray:
    """(n,) The unit's largest power claim, at equal power the one of the highest voltage, where
    the current is least; −1 for a unit without one."""
    power = claims.claimed_power
    voltage = np.where(np.isnan(claims.voltage), np.inf, claims.voltage)
    order = np.lexsort((np.arange(len(power)), -voltage, np.where(np.isnan(power), 0, -power),
                        claims.row))
    order = order[~np.isnan(power[order])]
    found = np.full(n, -1)
    row, first = np.unique(claims.row[order], return_index=True)
    found[row] = order[first]
    return found


def make_cases(claims: ClaimTable, n: int, seen: Observations, lines: tuple[Rule, ...]) -> Cases:
    highest = largest_by_unit(claims.row, claims.voltage, n)
    voltage = effective_voltage(claims.voltage, highest[claims.row])
    first = headline_claims(claims, n)
    main = np.where(first >= 0, np.append(voltage, np.nan)[first],
                    np.where(np.isnan(highest), 5.0, highest))
    split = np.full(n, any(OUTPUT_VOLTAGE in rule.reads for rule in lines))
    for code in (HELD, LOST):
        split[seen.tables[code].row] = True
    at = np.where(split[claims.row], voltage, main[claims.row])
    pairs = np.concatenate([np.stack([np.arange(n), main], 1), np.stack([claims.row, at], 1)])
    pairs, index = np.unique(pairs, axis=0, return_inverse=True)
    index = index.reshape(-1)
    unit = pairs[:, 0].astype(int)
    return Cases(unit, np.ascontiguousarray(pairs[:, 1]), index[n:], index[:n],
                 highest[unit])


def frame_at(frame: Frame, cases: Cases, seen: Observations, is_high: bool) -> Frame:
    """The columns as the power lines read them, one row a case, at one mains end."""
    frame = frame.take(cases.unit)
    mains = frame["mains_high" if is_high else "mains_low"]
    columns: dict[str, Column] = {
        "mains_voltage": mains,
        OUTPUT_VOLTAGE: exact(cases.voltage),
        "sustained_power": held(seen, cases.unit, mains.value, is_high, cases.voltage,
                                cases.highest),
        "failed_power": lost(seen, cases.unit, mains.value, is_high, cases.voltage,
                             is_multi_voltage(cases.highest)),
    }
    return frame.with_columns(columns)
