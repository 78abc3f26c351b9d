"""A capacitor across the mains has to bear a class for it: an X, or a Y."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.requirements.mains_parts import PRESENT
from teardowns.engine.requirements.safety_capacitors import CLASSES, barrier_of, bears
from teardowns.engine.rule import safety

ALL = frozenset(row[0] for row in CLASSES.rows)
CLASSED, NO_CLASS, UNREAD = 1, 2, 3


@safety(
    on="part", hazard="fire", confidence="A", measure="V",
    title="Capacitor across the mains",
    source="IEC 62368-1:2018, G.11.3, with IEC 60384-14; class pages of three capacitor makers.",
    validity="Class marks as printed; whether they are genuine is not examined.",
    formula=equation(word("any X or Y class")),
    reasons=(
        "",
        "In the unit examined the capacitor across the mains bears a class for this place. The "
        "class is not verified.",
        "In the unit examined the capacitor across the mains bears no X or Y class.",
        "The class of the capacitor could not be read: the evidence does not decide whether it "
        "belongs there.",
    ),
    optional=("safety_class", "marking", "bridges"),
)
def mains_capacitor(role, state, marking, safety_class, bridges):
    classed = bears(safety_class, ALL) | bears(marking, ALL)
    unread = (state != "recorded") | ((safety_class == "") & (marking == ""))
    why = np.select([unread, classed], [UNREAD, CLASSED], NO_CLASS)
    return graded(np.select([why == UNREAD, why == CLASSED], [CANNOT_TELL, MEETS], FALLS_SHORT),
                  why=why, applies=np.isin(state, PRESENT) & (barrier_of(role, bridges) == "L_N"))
