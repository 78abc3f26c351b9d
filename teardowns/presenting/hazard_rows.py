"""The list of flagged hazards as rows: what, how grave, how sure, how far spread."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.engine.risk import BESIDE, ORDER

from .links import Links
from .numbers import number
from .reach import reach

NO_LEVEL = "no level given"
OTHER = "by another rulebook, not yet assessed anew"


def hazard_rows(units: Sequence[Any], assessments: Mapping[int, Any],
                version: str) -> list[dict[str, Any]]:
    """version : of the rulebook in force, so that a level by another one is said to be that"""
    return [_row(unit, assessments[unit.assessment], version) for unit in units]


def _row(unit, assessment, version):
    safety = assessment.payload["safety"]
    level = ORDER[unit.risk]
    return {
        "address": f"{Links(unit.pk).unit}#findings", "title": unit.title,
        "status": unit.get_status_display(), "level": level or NO_LEVEL,
        "remark": "; ".join(filter(None, (BESIDE if level else "",
                                          "" if assessment.rulebook == version else OTHER))),
        "findings": [*(_beside(one["title"], one["level"]) for one in safety["findings"]),
                     *_named(safety, "without_scenario", "no scenario yet"),
                     *_named(safety, "flags", "flag: the figure is from memory")],
        "reach": "; ".join(reach(unit)) or "not known",
        "certainty": _certainty(unit.certainty) if level else "not computed",
    }


def _named(safety, which, remark):
    """Results without a level, by title; one that an earlier rulebook stored may know no flags."""
    titles = dict.fromkeys(safety["results"][index]["title"] for index in safety.get(which, ()))
    return [_beside(title, remark) for title in titles]


def _beside(title, remark):
    return AsWritten(f"{said(title)} ({said(remark)})")


def _certainty(chance):
    if chance is None:
        return "seen, no number"
    return "above 0.999" if chance > 0.999 else number(chance, 3)
