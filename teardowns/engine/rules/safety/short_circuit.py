"""A shorted output must end without flame."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

FLAME, SURVIVED, UNCLEAR = 1, 2, 3


@safety(
    on="unit", hazard="fire", confidence="B", measure="A",
    title="Shorted output",
    source="IEC 62368-1:2018, B.3, B.4 and 6.3.",
    validity="As somebody equipped for it reported; an opened fuse is no harm. Whether the "
             "insulation still holds afterwards is another result: electric strength.",
    formula=equation(word("no flame, no molten case")),
    reasons=(
        "",
        "In the unit examined flame or a molten case was reported after the output was shorted.",
        "In the unit examined the output was shorted without flame, molten plastic or a case too "
        "hot to touch.",
        "What happened when the output was shorted was not reported in full: the evidence does not "
        "decide it.",
    ),
    optional=("short_circuit_flame", "short_circuit_survived"),
)
def short_circuit(short_circuit_flame, short_circuit_survived):
    why = np.select([short_circuit_flame == 1, short_circuit_survived == 1], [FLAME, SURVIVED],
                    UNCLEAR)
    noted = ~np.isnan(short_circuit_flame) | ~np.isnan(short_circuit_survived)
    return graded(np.select([why == FLAME, why == SURVIVED], [FALLS_SHORT, MEETS], CANNOT_TELL),
                  why=why, applies=noted, assumed={"no_flame": np.isnan(short_circuit_flame)})
