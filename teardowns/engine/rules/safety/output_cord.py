"""An output conductor that comes loose must not reach mains parts."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

REACHES, NO_RELIEF, RELIEVED, OUT_OF_REACH = 1, 2, 3, 4


@safety(
    on="unit", hazard="shock", confidence="B", measure="N",
    title="Output cord",
    source="IEC 62368-1:2018, 4.6 and G.7; IEC 60950-1, 3.2.6.",
    validity="Units with a fixed output cord. A knot or solder alone is no relief.",
    formula=equation(word("a loose conductor reaches no mains part")),
    reasons=(
        "",
        "In the unit examined an output conductor that came out of its joint could reach mains "
        "parts.",
        "In the unit examined the output cord has no strain relief; whether a loose conductor "
        "could reach mains parts was not noted.",
        "In the unit examined the output cord has a strain relief; what it holds was not tested.",
        "In the unit examined a loose output conductor could not reach mains parts.",
    ),
    optional=("output_cord_relief", "output_wire_reaches_mains"),
)
def output_cord(output_cord_relief, output_wire_reaches_mains):
    why = np.select([output_wire_reaches_mains == 1, output_wire_reaches_mains == 0,
                     output_cord_relief == 0, output_cord_relief == 1],
                    [REACHES, OUT_OF_REACH, NO_RELIEF, RELIEVED], 0)
    return graded(np.select([why == REACHES, why == OUT_OF_REACH], [FALLS_SHORT, MEETS],
                            CANNOT_TELL), why=why, applies=why > 0)
