"""The drawn population in the engine's own columns."""
import numpy as np

from teardowns.engine.claims import ClaimTable
from teardowns.engine.evidence import EvidenceTable
from teardowns.engine.quantities import CODES

CLAIMS = ("power only", "with voltage", "5 V beside more")      # of a unit, in this order


def evidence_table(observed):
    """Every recorded value as a row, sorted by (row, code, evidence_id)."""
    rows = [_rows(k, clue) for k, clue in enumerate(observed)]
    row, code, value, u, mains, output, evidence_id = (
        np.concatenate(column) for column in zip(*rows, strict=True))
    order = np.lexsort((evidence_id, code, row))
    return EvidenceTable(
        units=np.arange(observed[0].value.size), row=row[order], code=code[order],
        value=value[order], u=u[order], mains_voltage=mains[order],
        output_voltage=output[order], port=np.full(row.size, -1), scale=np.full(row.size, -1),
        evidence_id=evidence_id[order])


def _rows(k, clue):
    row = np.flatnonzero(~np.isnan(clue.value))
    n = clue.value.size
    columns = (np.broadcast_to(column, n)[row]
               for column in (clue.value, clue.u, clue.mains, clue.output))
    return row, np.full(row.size, CODES.index(clue.code)), *columns, k * n + row


def claim_table(chargers, plates):
    """Three claims a unit; the third only where the plate gives 5 V beside a higher voltage.

    Returns the table and, for each claim, its place in CLAIMS.
    """
    n = plates.power.size
    unit, several = np.arange(n), np.flatnonzero(plates.several)
    row = np.concatenate([unit, unit, several])
    kind = np.repeat(["total", "output", "output"], [n, n, several.size])
    nothing = np.full(n, np.nan)
    group = np.repeat([0, 1, 2], [n, n, several.size])
    plug = np.where(chargers.fixed_barrel, "barrel", np.where(plates.current > 3, "usb_c", "usb_a"))
    table = ClaimTable(
        row=row, kind=kind,
        voltage=np.concatenate([nothing, plates.voltage, np.full(several.size, 5.0)]),
        current=np.concatenate([nothing, plates.current, plates.current_5v[several]]),
        power=np.concatenate([plates.power, nothing, nothing[several]]),
        connector=plug[row], port=np.full(row.size, -1), shared=np.zeros(row.size, bool),
        claim_id=np.arange(row.size))
    return table, group
