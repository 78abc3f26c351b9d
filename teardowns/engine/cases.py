"""A case is what one posterior answers for: a unit, or a unit at one output voltage or port.

Most units are one case for all their claims. Where a line depends on the claim's voltage (a
load test that was lost at 5 V says nothing about 20 V) each claimed voltage is a case, and where
a load test names one of several ports, each port.
"""
from dataclasses import dataclass

import numpy as np

from .claims import ClaimTable, largest_by_unit
from .columns import Frame, exact
from .conditions import (
    HELD,
    LOADS,
    LOST,
    OVERCURRENT,
    PEAK,
    Observations,
    Sought,
    effective_voltage,
    held,
    lost,
    lost_count,
    overcurrent,
)
from .defaults import fill_conditioned
from .rule import CONDITIONS, Rule

OUTPUT_VOLTAGE = "output_voltage"


@dataclass(frozen=True, slots=True)
class Cases:
    """unit (k,) ascending; voltage (k,) of the claims [V]; of_claim (m,); headline (n,)."""

    unit: np.ndarray
    voltage: np.ndarray
    port: np.ndarray               # (k,) of the claims, −1: the unit as a whole
    several: np.ndarray            # (k,) bool, the unit has several ports
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


def make_cases(claims: ClaimTable, frame: Frame, seen: Observations, lines: tuple[Rule, ...],
               several: np.ndarray) -> Cases:
    """several : (n,) bool, units with more than one port"""
    n = frame.size
    highest = largest_by_unit(claims.row, claims.voltage, n)
    voltage = effective_voltage(claims.voltage, highest[claims.row])
    first = headline_claims(claims, n)
    main = np.where(first >= 0, np.append(voltage, np.nan)[first],
                    np.where(np.isnan(highest), 5.0, highest))
    port = np.where(several[claims.row], claims.port, -1)
    main_port = np.where(first >= 0, np.append(port, -1)[first], -1)
    by_voltage, by_port = _split(frame, seen, lines)
    of = claims.row
    at = np.stack([np.where(by_voltage[of], voltage, main[of]),
                   np.where(by_port[of], port, main_port[of]), of])
    headline = np.stack([main, main_port, np.arange(n)])
    # Sorted by unit, then voltage, then port.
    keys, index = np.unique(np.concatenate([headline, at], 1)[::-1], axis=1, return_inverse=True)
    index = index.reshape(-1)
    unit, case_port, case_voltage = (np.ascontiguousarray(key) for key in keys)
    unit = unit.astype(int)
    return Cases(unit, case_voltage, case_port.astype(int), several[unit], index[n:], index[:n],
                 highest[unit])


def _split(frame, seen, lines):
    """(n,), (n,): the units whose claims are judged voltage by voltage, and port by port."""
    by_voltage, by_port = np.zeros(frame.size, bool), np.zeros(frame.size, bool)
    for code in LOADS:
        table = seen.tables[code]
        by_voltage[table.row] = True
        by_port[table.row[table.port >= 0]] = True
    for rule in lines:
        if OUTPUT_VOLTAGE in rule.reads:
            needs = [frame[code].value for code in rule.required
                     if code not in CONDITIONS and code not in LOADS]
            by_voltage |= ~np.isnan(needs).any(axis=0) if needs else False
    return by_voltage, by_port


def frame_at(frame: Frame, cases: Cases, seen: Observations, is_high: bool) -> Frame:
    """The columns as the power lines read them at one mains end; frame : one row a case"""
    mains = frame["mains_high" if is_high else "mains_low"]
    sought = Sought(cases.unit, cases.voltage, cases.highest, cases.port, cases.several,
                    mains.value, is_high)
    return fill_conditioned(frame.with_columns({
        "mains_voltage": mains,
        OUTPUT_VOLTAGE: exact(cases.voltage),
        HELD: held(seen, sought),
        PEAK: held(seen, sought, PEAK),
        LOST: lost(seen, sought),
        "failed_tests": exact(lost_count(seen, sought)),
        OVERCURRENT: overcurrent(seen, sought),
    }))
