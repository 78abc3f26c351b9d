"""The case has to keep live parts away without a tool in hand."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, CONFIDENCE, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

BY_HAND, DROPPED, WELDED, CLIPPED, AT_ODDS = 1, 2, 3, 4, 5
FROM_MEMORY = CONFIDENCE.index("C")


@safety(
    on="unit", hazard="shock", confidence="A", measure="m",
    title="Closure of the case",
    source="IEC 62368-1:2018, 4.4.3 and annex V, clause list of a test report on a charger, 2021. "
           "Three drops from 1 m: annex T.7, from memory.",
    validity="As somebody found it who opened it. No force was measured.",
    formula=equation(word("it opens only by a tool")),
    reasons=(
        "",
        "In the unit examined the case opened with the fingers, with live parts in reach.",
        "In the unit examined the case opened or cracked when it was dropped.",
        "In the unit examined the case was welded or glued all round and had to be broken, which "
        "is consistent with what is asked for.",
        "In the unit examined the case is held by clips or screws: whether they hold without a "
        "tool was not measured.",
        "The case is recorded to open with the fingers and to be welded or glued so that it had to "
        "be broken: the evidence does not decide which of both holds.",
    ),
    optional=("case_opens_by_hand", "case_opened_by_drop", "case_welded", "case_clipped"),
)
def case_opening(case_opens_by_hand, case_opened_by_drop, case_welded, case_clipped):
    by_hand, welded = case_opens_by_hand == 1, case_welded == 1
    why = np.select([by_hand & welded, by_hand, case_opened_by_drop == 1, case_clipped == 1,
                     welded],
                    [AT_ODDS, BY_HAND, DROPPED, CLIPPED, WELDED], 0)
    grade = np.select([np.isin(why, (BY_HAND, DROPPED)), why == WELDED], [FALLS_SHORT, MEETS],
                      CANNOT_TELL)
    return graded(
        grade, why=why, applies=why > 0, confidence=np.where(why == DROPPED, FROM_MEMORY, 0),
        assumed={"not_by_hand": np.isnan(case_opens_by_hand),
                 "not_dropped": np.isnan(case_opened_by_drop),
                 "no_clips": np.isnan(case_clipped)})
