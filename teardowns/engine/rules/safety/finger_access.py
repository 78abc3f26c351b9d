"""No hole or gap may let a finger reach mains parts."""
import numpy as np

from teardowns.engine.grading import FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

REACHED, NOT_REACHED = 1, 2


@safety(
    on="unit", hazard="shock", confidence="A", measure="m",
    title="Mains parts within reach of a finger",
    source="IEC 62368-1:2018, 5.3.2.2 a) and annex V; probe B of IEC 61032.",
    validity="A rigid jointed test finger of 12 mm, without force.",
    formula=equation(word("a test finger touches no mains part")),
    reasons=(
        "",
        "In the unit examined a hole or gap of the closed case lets a test finger touch mains "
        "parts.",
        "In the unit examined a test finger reached no mains part.",
    ),
)
def finger_access(test_finger_reaches_mains):
    reached = test_finger_reaches_mains == 1
    return graded(np.where(reached, FALLS_SHORT, MEETS),
                  why=np.where(reached, REACHED, NOT_REACHED),
                  applies=~np.isnan(test_finger_reaches_mains))
