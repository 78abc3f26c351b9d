"""A board marked V-0 or V-1 claims that it does not go on burning."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

MARKED, UNMARKED = 1, 2


@safety(
    on="unit", hazard="fire", confidence="B", measure="1",
    title="Flammability mark of the board",
    source="IEC 62368-1:2018, 6.4; summary rows of a test report: V-1 for circuits above 100 W.",
    validity="Marks as printed: a claim. No burn tests are asked for.",
    formula=equation(word("V-1 or better")),
    reasons=(
        "",
        "In the unit examined the board is marked V-0 or V-1. The mark is not verified.",
        "In the unit examined no flammability mark was found on the board: the evidence does not "
        "decide how it burns.",
    ),
)
def board_flammability(board_flame_class):
    marked = board_flame_class == 1
    return graded(np.where(marked, MEETS, CANNOT_TELL), why=np.where(marked, MARKED, UNMARKED),
                  applies=~np.isnan(board_flame_class))
