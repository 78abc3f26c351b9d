"""Which observation counts for which claim at which end of the mains range.

A test decides within its own conditions only:

- A load that was held at mains voltage V supports ends with V_end ≥ 0.85·V, for a unit does
  better with more mains voltage. Mains not stated: it counts for the high end only. Held at
  output voltage U it shows its current: at a lower voltage U' it counts with U'/U of its power,
  at a higher one in full. U not stated: as if held at the highest claimed voltage.
- A load at which regulation was lost at V caps ends with V_end ≤ 1.15·V. Not stated: the low
  end only. Lost at output voltage U it caps claims up to 1.1·U: a current limit at 5 V says
  nothing about 20 V. U not stated: only if the unit has no claim above 5.5 V.
- A voltage asked for and not given concerns claims within 10 % of it.
"""
from dataclasses import dataclass

import numpy as np

from .claims import FIXED_VOLTAGE
from .columns import EVIDENCE, Column
from .evidence import EvidenceTable

HELD, LOST, REFUSED = "sustained_power", "failed_power", "refused_voltage"
REACH = 0.15            # how far a result reaches along the mains voltage; our own choice
SAME_VOLTAGE = 0.10     # how far apart two output voltages count as one


@dataclass(frozen=True, slots=True)
class Observations:
    """The conditioned observations of all units, by quantity, sorted by row."""

    tables: dict[str, EvidenceTable]

    @classmethod
    def of(cls, evidence: EvidenceTable) -> "Observations":
        return cls({code: evidence.of(code) for code in (HELD, LOST, REFUSED)})

    def paired(self, code: str, unit: np.ndarray):
        """Rows of `code` and, beside each, every case of its unit: (table, row, case).

        unit : (k,) int, ascending, the unit of each case
        """
        table = self.tables[code]
        first, last = (np.searchsorted(unit, table.row, side) for side in ("left", "right"))
        count = last - first
        row = np.repeat(np.arange(len(table.row)), count)
        offset = np.arange(len(row)) - np.repeat(np.cumsum(count) - count, count)
        return table, row, first[row] + offset


def held(seen: Observations, unit, mains, is_high, voltage, highest) -> Column:
    """(k,) The highest load that was held and counts at this end, for the claims of each case.

    voltage : (k,) float, of the claims; highest : (k,) float, the unit's highest, NaN: none [V]
    """
    table, row, case = seen.paired(HELD, unit)
    at, out = table.mains_voltage[row], table.output_voltage[row]
    out = np.where(np.isnan(out), highest[case], out)
    below = voltage[case] < (1 - SAME_VOLTAGE) * out
    share = np.where(below, voltage[case] / out, 1.0)
    counts = np.where(np.isnan(at), is_high, mains[case] >= (1 - REACH) * at)
    far = np.log(at / mains[case])
    return _pick(table, row[counts], case[counts], len(unit), 1, far[counts], share[counts])


def lost(seen: Observations, unit, mains, is_high, voltage, multi_voltage) -> Column:
    """(k,) The lowest load at which regulation was lost, for the claims of each case.

    voltage : (k,) float, of the claims; multi_voltage : (k,) bool, the unit claims > 5.5 V
    """
    table, row, case = seen.paired(LOST, unit)
    at, out = table.mains_voltage[row], table.output_voltage[row]
    counts = np.where(np.isnan(at), not is_high, mains[case] <= (1 + REACH) * at)
    counts &= np.where(np.isnan(out), ~multi_voltage[case],
                       voltage[case] <= (1 + SAME_VOLTAGE) * out)
    far = np.log(mains[case] / at)
    return _pick(table, row[counts], case[counts], len(unit), -1, far[counts])


def refused(seen: Observations, unit, voltage) -> Column:
    """(k,) The lowest voltage that was asked for and not given, near each claim's voltage.

    It counts as the claim's own: 11 V refused says no more against 12 V than 12 V refused.
    """
    table, row, case = seen.paired(REFUSED, unit)
    share = voltage[case] / table.value[row]
    counts = np.abs(share - 1) <= SAME_VOLTAGE
    return _pick(table, row[counts], case[counts], len(unit), -1,
                 share=np.fmax(share[counts], 1.0))


def effective_voltage(voltage, unit_highest):
    """(m,) A claim's voltage; not printed: the unit's highest, else 5 V."""
    return np.where(np.isnan(voltage), np.where(np.isnan(unit_highest), 5.0, unit_highest),
                    voltage)


def is_multi_voltage(unit_highest):
    """(n,) Whether a unit claims more than a fixed 5 V."""
    return unit_highest > FIXED_VOLTAGE


def _pick(table, row, case, size, sign, far=0.0, share=1.0):
    """The observation that says most of each case: the farthest in `sign`, less its doubt.

    far : how far beyond its own mains voltage the result is stretched, in ln. A held 115 V says
    less at 100 V than at 115 V; power goes about with voltage, so that this adds to u in full.
    share : how much of the observed power counts
    """
    value = share * table.value[row]
    u = np.hypot(share * table.u[row], value * np.fmax(far, 0.0))
    rank = sign * value - 2 * u
    best = np.full(size, -np.inf)
    np.maximum.at(best, case, rank)
    mine = rank == best[case]
    found, spread = np.full(size, np.nan), np.full(size, np.nan)
    found[case[mine]], spread[case[mine]] = value[mine], u[mine]
    return Column(found, spread, np.where(np.isnan(found), 0, EVIDENCE).astype(np.int8))
