"""Loads that were lost at one of several outputs, nobody noted at which.

An output that lets go just above its own rating does what it prints, and says nothing of what all
outputs give together. A test of the whole unit may name no port either; where nobody noted that
all ports were loaded, the load itself has to tell the two apart.
"""
from dataclasses import replace

import numpy as np

from .claims import ClaimTable, largest_by_unit
from .conditions import HELD, LOST, OVERCURRENT, SAME_VOLTAGE, Observations

# Of what is printed for one output: where its own current limit lies; common practice, no source.
# Less is a word against that output, more is more than one output should give.
OWN_LIMIT = (0.95, 1.5)
LESSER = 0.9            # of the unit's largest claim: so much less is no claim of the whole
UNNAMED, ALL_PORTS = -1, -2     # in place of the port of an observation


def without_port_trips(seen: Observations, claims: ClaimTable,
                       several: np.ndarray) -> tuple[Observations, np.ndarray]:
    """The observations without the trips that one output may have had by itself; (m,) bool, claims
    of more than such a trip, of which the unit held no more: it may as well have been theirs.

    claims : sorted by row; several : (n,) bool, units with several ports
    """
    less_was_lost = np.zeros(len(claims.row), bool)
    if not any(seen.tables[code].row.size for code in (LOST, OVERCURRENT)):
        return _of_the_unit(seen), less_was_lost
    held = np.zeros(len(several))
    np.maximum.at(held, seen.tables[HELD].row, seen.tables[HELD].value)
    single, outlets = _single(claims, several)
    whole = largest_by_unit(claims.row, claims.claimed_power, len(several))
    kept = dict(seen.tables)
    for code, printed in ((LOST, claims.claimed_power), (OVERCURRENT, claims.current)):
        table, row, claim = seen.paired(code, claims.row)
        share, out = table.value[row] / printed[claim], table.output_voltage[row]
        alike = ~(np.abs(out / claims.voltage[claim] - 1) > SAME_VOLTAGE)
        own = (single[claim] & outlets[claims.row[claim]]
               & (share >= OWN_LIMIT[0]) & (share <= OWN_LIMIT[1])
               & (share * claims.claimed_power[claim] < whole[claims.row[claim]]) & alike)
        trips = np.bincount(row[own], minlength=len(table.row)) > 0
        if code == OVERCURRENT:         # a point of one port, by its meaning
            trips |= several[table.row]
        left_out = trips & (table.port == UNNAMED)
        watts = table.value if code == LOST else table.value * table.output_voltage
        above = ~(watts[row] <= held[claims.row[claim]])
        less_was_lost[claim[left_out[row] & (share < OWN_LIMIT[0]) & alike & above]] = True
        kept[code] = table.take(~left_out)
    return _of_the_unit(replace(seen, tables=kept)), less_was_lost


def _of_the_unit(seen):
    """The same, where a load of all ports is one of no single port, as for all that follows."""
    return replace(seen, tables={
        code: replace(table, port=np.maximum(table.port, UNNAMED)) if (table.port < UNNAMED).any()
        else table for code, table in seen.tables.items()})


def _single(claims, several):
    """(m,) claims of one output only; (n,) units that have several outputs, by port or print."""
    power, n = claims.claimed_power, len(several)
    whole = (claims.kind == "total") | claims.shared
    single = (claims.kind == "output") & ~whole
    total, output = (largest_by_unit(claims.row, np.where(of, power, np.nan), n)
                     for of in (whole, single))
    lesser = power < LESSER * largest_by_unit(claims.row, power, n)[claims.row]
    return single & lesser, several | (output < LESSER * total)
