"""A pulled mains cord must not pull on its joints."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

NONE, UNTESTED, PLUGGED = 1, 2, 3
WITHOUT_CORD = ("plug_in", "outlet")      # kinds of unit


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
        "The unit is recorded as one that is plugged in directly, and such a unit has no mains "
        "cord: the evidence does not decide what was not found.",
    ),
    optional=("kind",),
)
def mains_cord(mains_cord_relief, kind):
    none = mains_cord_relief == 0
    plugged = none & np.isin(kind, WITHOUT_CORD)
    return graded(np.where(none & ~plugged, FALLS_SHORT, CANNOT_TELL),
                  why=np.select([plugged, none], [PLUGGED, NONE], UNTESTED),
                  applies=~np.isnan(mains_cord_relief))
