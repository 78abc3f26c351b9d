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
- Of several ports, a load held or lost at one counts for the claims of that port. What was held
  at one port the whole unit held; what was lost at one port caps no other claim. Lost at a port
  that nobody named: see port_trips.
"""
from dataclasses import dataclass, replace

import numpy as np

from .claims import FIXED_VOLTAGE
from .columns import EVIDENCE, Column, Frame
from .evidence import INDEX, WITNESSES, EvidenceTable, pool_evidence

HELD, PEAK, LOST, OVERCURRENT = ("sustained_power", "peak_power", "failed_power",
                                 "overcurrent_point")
REFUSED = "refused_voltage"
LOADS = (HELD, PEAK, LOST, OVERCURRENT)
# What is observed of one port where a unit has several.
PER_PORT = ("offered_voltage", "output_voltage_no_load", "protocol_controller",
            "feedback_node_driven", "port_converter", "bus_switch", "advertised_voltage",
            "advertised_power", "type_c_current")
REACH = 0.15            # how far a result reaches along the mains voltage; our own choice
SAME_VOLTAGE = 0.10     # how far apart two output voltages count as one


@dataclass(frozen=True, slots=True)
class Observations:
    """The conditioned observations of all units, by quantity, sorted by row."""

    tables: dict[str, EvidenceTable]

    @classmethod
    def of(cls, evidence: EvidenceTable) -> "Observations":
        wanted = (*LOADS, REFUSED, *PER_PORT)
        some = evidence.take(np.isin(evidence.code, [INDEX[code] for code in wanted]))
        tables, none = dict(some.by_code()), evidence.take(slice(0))
        return cls({code: tables.get(code, none) for code in wanted})

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


@dataclass(frozen=True, slots=True)
class Sought:
    """For whose claims an observation is looked up, one row a case.

    unit : (k,) int, ascending; voltage : (k,) float, of the claims [V]; highest : (k,) float, the
    unit's highest claimed voltage, NaN: none [V]; port : (k,) int, −1: the unit as a whole;
    several : (k,) bool, the unit has several ports; mains : (k,) float [V]; is_high : which end
    """

    unit: np.ndarray
    voltage: np.ndarray
    highest: np.ndarray
    port: np.ndarray
    several: np.ndarray
    mains: np.ndarray
    is_high: bool


def held(seen: Observations, sought: Sought, code: str = HELD) -> Column:
    """(k,) The highest load that was held and counts at this end. [W]"""
    table, row, case = seen.paired(code, sought.unit)
    voltage, mains = sought.voltage[case], sought.mains[case]
    at, out = table.mains_voltage[row], table.output_voltage[row]
    out = np.where(np.isnan(out), sought.highest[case], out)
    share = np.where(voltage < (1 - SAME_VOLTAGE) * out, voltage / out, 1.0)
    counts = np.where(np.isnan(at), sought.is_high, mains >= (1 - REACH) * at)
    port = sought.port[case]
    counts &= ~sought.several[case] | (port < 0) | (port == table.port[row])
    far = np.log(at / mains)
    return _pick(table, row[counts], case[counts], len(sought.unit), 1, far[counts],
                 share[counts])


def lost(seen: Observations, sought: Sought, code: str = LOST) -> Column:
    """(k,) The lowest load at which regulation was lost. [W]"""
    table, row, case, counts, far = _capping(seen, sought, code)
    return _pick(table, row[counts], case[counts], len(sought.unit), -1, far[counts])


def lost_count(seen: Observations, sought: Sought) -> np.ndarray:
    """(k,) At how many loads regulation was lost in conditions that count."""
    *_, case, counts, _ = _capping(seen, sought, LOST)
    return np.bincount(case[counts], minlength=len(sought.unit)).astype(float)


def overcurrent(seen: Observations, sought: Sought) -> Column:
    """(k,) The over-current point, as a current at the claims' voltage: of the same power. [A]"""
    table, row, case, counts, far = _capping(seen, sought, OVERCURRENT)
    voltage, out = sought.voltage[case], table.output_voltage[row]
    share = np.where(np.isnan(out), 1.0, out / voltage)
    return _pick(table, row[counts], case[counts], len(sought.unit), -1, far[counts],
                 share[counts])


def _capping(seen, sought, code):
    """Each lost load beside each case, whether it counts, and how far it is stretched."""
    table, row, case = seen.paired(code, sought.unit)
    voltage, mains = sought.voltage[case], sought.mains[case]
    at, out = table.mains_voltage[row], table.output_voltage[row]
    counts = np.where(np.isnan(at), not sought.is_high, mains <= (1 + REACH) * at)
    counts &= np.where(np.isnan(out), ~is_multi_voltage(sought.highest[case]),
                       voltage <= (1 + SAME_VOLTAGE) * out)
    counts &= ~sought.several[case] | (sought.port[case] == table.port[row])
    return table, row, case, counts, np.log(mains / at)


def at_ports(frame: Frame, seen: Observations, unit, port, several) -> Frame:
    """(v,) The columns with what was observed at each claim's own port.

    frame : (v,) columns of the claims' units; unit, port, several : (v,) of the claims
    An observation that names no port counts for each.
    """
    mine = several & (port >= 0)
    pairs, place = np.unique(np.stack([unit[mine], port[mine]], 1), axis=0, return_inverse=True)
    codes = {*PER_PORT, *WITNESSES["offered_voltage"]}
    if not len(pairs) or not any((seen.tables[code].port >= 0).any() for code in codes):
        return frame
    pooled = pool_evidence(_of_places(seen, codes, pairs))
    columns = {}
    for code in PER_PORT:
        column, own = frame[code], pooled[code].take(place.reshape(-1))
        parts = [np.array(part) for part in (column.value, column.u, column.how)]
        for part, new in zip(parts, (own.value, own.u, own.how), strict=True):
            part[mine] = new
        columns[code] = Column(*parts)
    return frame.with_columns(columns)


def _of_places(seen, codes, pairs):
    """One evidence table whose units are the pairs of unit and port."""
    found = []
    for code in sorted(codes):
        table, row, place = seen.paired(code, pairs[:, 0])
        here = (table.port[row] < 0) | (table.port[row] == pairs[place, 1])
        found.append(replace(table.take(row[here]), row=place[here]))
    return EvidenceTable.joined(np.arange(len(pairs)), found)


def refused(seen: Observations, unit, voltage, port, several) -> Column:
    """(k,) The lowest voltage that was asked for and not given, near each claim's voltage.

    It counts as the claim's own: 11 V refused says no more against 12 V than 12 V refused.
    """
    table, row, case = seen.paired(REFUSED, unit)
    share = voltage[case] / table.value[row]
    counts = np.abs(share - 1) <= SAME_VOLTAGE
    at = table.port[row]
    counts &= ~several[case] | (at < 0) | (port[case] == at)
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
