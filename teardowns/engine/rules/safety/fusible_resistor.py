"""A resistor protects as a fuse does only where its type is made to open."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.requirements.mains_parts import PRESENT
from teardowns.engine.rule import safety

KNOWN, UNKNOWN = 1, 2


@safety(
    on="part", hazard="fire", confidence="A", measure="Ω",
    title="Fusible resistor in the mains lead",
    source="IEC 62368-1:2018, 6.4.3 and G.3.5; IEC 60950-1, 2.7.",
    validity="A type is known where the part library has its data sheet.",
    formula=equation(word("a type that is made to open")),
    reasons=(
        "",
        "In the unit examined the resistor in the mains lead is of a known fusible type.",
        "Whether the resistor in the mains lead opens safely depends on its type, which is not "
        "known: the evidence does not decide it.",
    ),
)
def fusible_resistor(role, state, cited):
    known = (cited == 1) & (state == "recorded")
    return graded(np.where(known, MEETS, CANNOT_TELL), why=np.where(known, KNOWN, UNKNOWN),
                  applies=(role == "fusible_resistor") & np.isin(state, PRESENT))
