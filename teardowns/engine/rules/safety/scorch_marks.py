"""Charring or melting after normal use is damage that was seen, whatever caused it."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

SCORCHED, CLEAN = 1, 2


@safety(
    on="unit", hazard="fire", confidence="B", measure="1",
    title="Scorched or molten places",
    source="IEC 62368-1:2018, 6.3: nothing ignites in normal use; observation of damage.",
    validity="As found on opening, before any test.",
    formula=equation(word("no charring, no melting")),
    reasons=(
        "",
        "In the unit examined charring, melting or a discoloured board was found after normal use.",
        "In the unit examined no charring was found, which says nothing of what a fault would do.",
    ),
)
def scorch_marks(scorch_marks):
    scorched = scorch_marks == 1
    return graded(np.where(scorched, FALLS_SHORT, CANNOT_TELL),
                  why=np.where(scorched, SCORCHED, CLEAN), applies=~np.isnan(scorch_marks))
