"""The whole computation on one page.

    evidence → pooled columns → defaults → lines of evidence → posteriors → verdicts
                            ↘ paths, windings, parts → grades

Each stage is a pure function of what earlier stages made, over whole columns of units; a unit
gets the same bits alone and among many.
"""
import os
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np

from .claims import ClaimTable
from .columns import DEFAULT, Frame
from .conditions import Observations, at_ports
from .defaults import MAINS_ENDS, fill_defaults
from .evidence import EvidenceTable, pool_evidence
from .examined_units import ColumnsAt, ExaminedUnits
from .grading import Graded
from .judging import Examined, Judged, examine
from .ports import PortTable
from .rulebook import Rulebook
from .safety import grade_units, with_derived
from .subjects import Subjects

# Units at a time: more leave the processor's cache, fewer cost more Python than numbers.
CHUNK = 1536


@dataclass(frozen=True, slots=True)
class Assessment:
    rulebook: Rulebook         # whose rules made these numbers
    evidence: EvidenceTable    # kept, so that every number can be traced
    claims: ClaimTable
    ports: PortTable
    frame: Frame               # (n,) pooled evidence and defaults
    judged: Judged             # claims in the caller's order
    found: Frame               # (n,) pooled evidence alone
    subjects: Subjects         # what rules about safety are asked of
    graded: Mapping[str, Graded]         # by rule id, in the order of its subjects
    examined: ExaminedUnits | None = None    # all that is behind it, of CHUNK units at most


@np.errstate(invalid="ignore", divide="ignore", over="ignore", under="ignore")
def assess(evidence: EvidenceTable, claims: ClaimTable, rulebook: Rulebook,
           ports: PortTable | None = None, subjects: Subjects | None = None) -> Assessment:
    """Judge every claim of every unit, and grade its safety; the unknown is NaN, not a warning.

    ports, subjects : None where nothing is known of them
    """
    ports = PortTable.none() if ports is None else ports
    order = np.argsort(claims.row, kind="stable")
    found = pool_evidence(evidence)
    frame = fill_defaults(found, claims)
    subjects = with_derived(subjects or Subjects(), found)
    graded = grade_units(rulebook.safety, found, subjects)
    ordered, seen = claims.take(order), Observations.of(evidence)
    several = ports.several(frame.size)
    judged, kept = Judged.blank(len(order), len(rulebook.lines), frame.size), None

    def judge(start):
        """One chunk, cut out and written where it belongs only now: all at once are large."""
        units = slice(start, min(start + CHUNK, frame.size))
        mine = slice(*np.searchsorted(ordered.row, [units.start, units.stop]))
        part = ordered.take(mine)
        examined = examine(
            frame.take(np.arange(units.start, units.stop)), replace(part, row=part.row - start),
            _observations_of(seen, units.start, units.stop), rulebook, several[units])
        judged.put(examined.judged, order[mine], units)
        return examined

    if frame.size <= CHUNK:
        kept = ExaminedUnits(judge(0), ordered.row, frame.size)
    else:
        _in_threads(judge, range(0, frame.size, CHUNK))
    return Assessment(rulebook, evidence, claims, ports, frame, judged, found, subjects, graded,
                      kept)


def examine_unit(assessment: Assessment, row: int) -> tuple[Examined, np.ndarray]:
    """All that is behind one unit's numbers, and the indices of its claims.

    Of more than CHUNK units the working is not kept: it is the rulebook applied once more to the
    same columns, which gives the same bits.
    """
    mine = np.flatnonzero(assessment.claims.row == row)
    if assessment.examined is not None:
        return assessment.examined.one(row), mine
    seen = _observations_alone(assessment.evidence, row)
    claims = assessment.claims.take(mine)
    claims = replace(claims, row=np.zeros(len(mine), int))
    several = assessment.ports.several(assessment.frame.size)[[row]]
    examined = examine(assessment.frame.take([row]), claims, seen, assessment.rulebook, several)
    return ExaminedUnits(examined, claims.row, 1).one(0), mine


def frames_by_port(assessment: Assessment, row: int,
                   ports: PortTable) -> dict[int | None, Frame]:
    """One unit's columns, None, and those with what was observed at each of its ports.

    Without the defaults: a check compares what was found and printed, nothing that was assumed.
    """
    whole = Frame(1, _Observed(assessment.frame.columns, slice(row, row + 1)))
    if len(ports.row) <= 1:            # what was observed at the one port was so of the unit
        return {None: whole, **dict.fromkeys(range(len(ports.row)), whole)}
    seen, several = _observations_alone(assessment.evidence, row), np.array([True])
    return {None: whole, **{port: at_ports(whole, seen, np.array([0]), np.array([port]), several)
                            for port in range(len(ports.row))}}


class _Observed(ColumnsAt):
    def taken(self, code, column):
        return column if code in MAINS_ENDS else column.blank(column.how == DEFAULT)


def _observations_alone(evidence, row):
    """Of one unit, without a look at the others'."""
    mine = evidence.take(slice(*np.searchsorted(evidence.row, [row, row + 1])))
    return Observations.of(replace(mine, row=np.zeros(len(mine.row), int)))


def _observations_of(seen, start, stop):
    tables = {}
    for code, table in seen.tables.items():
        part = table.take(slice(*np.searchsorted(table.row, [start, stop])))
        tables[code] = replace(part, row=part.row - start)
    return Observations(tables)


def _in_threads(work, starts):
    def let_go(start):
        work(start)             # what it returns is large, and nobody's any more

    with ThreadPoolExecutor(min(os.cpu_count() or 1, 8)) as pool:    # numpy frees the lock
        for _ in pool.map(let_go, starts):
            pass
