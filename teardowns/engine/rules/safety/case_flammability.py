"""A case marked flame-retardant claims that a small fire inside stays inside."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

MARKED, PLAIN = 1, 2


@safety(
    on="unit", hazard="fire", confidence="B", measure="1",
    title="Flammability mark of the case",
    source="IEC 62368-1:2018, 6.4; summary rows of a test report; resin codes by ISO 11469.",
    validity="Marks as moulded: a claim. No burn tests are asked for.",
    formula=equation(word("a resin with a flame retardant")),
    reasons=(
        "",
        "In the unit examined the resin of the case is marked flame-retardant. The mark is not "
        "verified.",
        "In the unit examined the resin of the case is marked without a flame retardant: a "
        "reviewer should look. The evidence does not decide how it burns.",
    ),
    optional=("case_flame_retardant", "case_plain_resin"),
)
def case_flammability(case_flame_retardant, case_plain_resin):
    why = np.select([case_plain_resin == 1, case_flame_retardant == 1], [PLAIN, MARKED], 0)
    return graded(np.where(why == MARKED, MEETS, CANNOT_TELL), why=why, applies=why > 0,
                  assumed={"no_plain_resin": np.isnan(case_plain_resin)})
