"""Walk one grade back to its evidence: the rule read once more over the same columns."""
from collections.abc import Sequence

import numpy as np

from .assumptions import ASSUMPTIONS
from .pipeline import Assessment
from .safety_inputs import inputs_of
from .safety_report import governing, is_told, results_of


def explain_safety(assessment: Assessment, row: int, rule_id: str,
                   refs: Sequence[str] | None = None) -> dict:
    """What one rule says of each of a unit's subjects, with all that went into it."""
    rule = assessment.rulebook[rule_id]
    results = results_of(assessment, row, rule, refs)
    governing(results)
    return {
        "id": rule.id, "title": rule.title, "summary": rule.summary, "formula": rule.formula,
        "source": rule.source, "validity": rule.validity, "largest": rule.largest,
        "hazard": rule.hazard,
        "subjects": [
            one | {"inputs": inputs_of(assessment, row, rule, at, refs),
                   "assumptions": [ASSUMPTIONS[name] for name in one["assumed"]]}
            for at, one in zip(_places(assessment, row, rule), results, strict=True)],
    }


def _places(assessment, row, rule):
    """Places of the subjects that `results_of` speaks of, in its order."""
    table, known = assessment.subjects[rule.on], len(assessment.graded[rule.id].applies)
    mine = np.flatnonzero(table.row == row) if len(table.row) else np.array([row])
    return [int(at) for at in mine if at < known and is_told(assessment, row, rule, int(at))]
