"""A pulled mains cord must not pull on its joints."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

NONE, UNTESTED = 1, 2


@safety(
    on="unit", hazard="shock", confidence="B", measure="N",
    title="Strain relief of the mains cord",
    source="IEC 62368-1:2018, G.7; IEC 60950-1, 3.2.6. Pull of 30 N to 100 N from memory.",
    validity="Units with a mains cord. A knot or solder alone is no relief.",
    formula=equation(word("a clamp or bushing takes the pull")),
    reasons=(
        "",
        "In the unit examined the mains cord has no strain relief but a knot or its solder joints.",
        "In the unit examined the mains cord has a strain relief; what it holds was not tested.",
    ),
)
def mains_cord(mains_cord_relief):
    none = mains_cord_relief == 0
    return graded(np.where(none, FALLS_SHORT, CANNOT_TELL), why=np.where(none, NONE, UNTESTED),
                  applies=~np.isnan(mains_cord_relief))
