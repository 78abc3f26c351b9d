"""The whole computation on one page.

    evidence → pooled columns → defaults → lines of evidence → posteriors → verdicts

Each stage is a pure function of what earlier stages made, over whole columns of units; a unit
gets the same bits alone and among many.
"""
import os
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np

from .claims import ClaimTable
from .columns import Frame
from .conditions import Observations
from .defaults import fill_defaults
from .evidence import EvidenceTable, pool_evidence
from .judging import Examined, Judged, examine
from .rulebook import Rulebook

CHUNK = 512       # units at a time, so that the grids stay in the processor's cache


@dataclass(frozen=True, slots=True)
class Assessment:
    rulebook: Rulebook         # whose rules made these numbers
    evidence: EvidenceTable    # kept, so that every number can be traced
    claims: ClaimTable
    frame: Frame               # (n,) pooled evidence and defaults
    judged: Judged             # claims in the caller's order


@np.errstate(invalid="ignore", divide="ignore", over="ignore", under="ignore")
def assess(evidence: EvidenceTable, claims: ClaimTable, rulebook: Rulebook) -> Assessment:
    """Judge every claim of every unit; the unknown is NaN, not a warning."""
    order = np.argsort(claims.row, kind="stable")
    frame = fill_defaults(pool_evidence(evidence), claims)
    parts = _chunks(frame, claims.take(order), Observations.of(evidence))

    def judge(part):
        columns, claimed, seen = part
        return examine(columns, claimed, seen, rulebook).judged

    judged = Judged.join(_in_threads(judge, parts))
    return Assessment(rulebook, evidence, claims, frame, _reordered(judged, order))


def examine_unit(assessment: Assessment, row: int) -> tuple[Examined, np.ndarray]:
    """All that is behind one unit's numbers, and the indices of its claims.

    The working is not kept for every unit: it is the rulebook applied once more to the same
    columns, which gives the same bits.
    """
    mine = np.flatnonzero(assessment.claims.row == row)
    seen = _observations_of(Observations.of(assessment.evidence), row, row + 1)
    claims = assessment.claims.take(mine)
    claims = replace(claims, row=np.zeros(len(mine), int))
    return examine(assessment.frame.take([row]), claims, seen, assessment.rulebook), mine


def _chunks(frame, claims, seen):
    for start in range(0, max(frame.size, 1), CHUNK):
        stop = min(start + CHUNK, frame.size)
        mine = slice(*np.searchsorted(claims.row, [start, stop]))
        part = claims.take(mine)
        yield (frame.take(np.arange(start, stop)), replace(part, row=part.row - start),
               _observations_of(seen, start, stop))


def _observations_of(seen, start, stop):
    tables = {}
    for code, table in seen.tables.items():
        mine = slice(*np.searchsorted(table.row, [start, stop]))
        tables[code] = replace(
            table, row=table.row[mine] - start, value=table.value[mine], u=table.u[mine],
            code=table.code[mine], mains_voltage=table.mains_voltage[mine],
            output_voltage=table.output_voltage[mine], evidence_id=table.evidence_id[mine])
    return Observations(tables)


def _in_threads(work, parts):
    parts = list(parts)
    if len(parts) == 1:
        return [work(parts[0])]
    with ThreadPoolExecutor(min(os.cpu_count() or 1, 8)) as pool:    # numpy frees the lock
        return list(pool.map(work, parts))


def _reordered(judged, order):
    """Claims back in the caller's order; the units' numbers as they are."""
    place = np.argsort(order, kind="stable")
    return replace(judged, **{
        name: getattr(judged, name)[place] for name in Judged.__slots__ if name != "capability"})
