"""What lies inside an optocoupler, between the light that shines and the light that sees.

Its pins and the board under it are graded as paths; its inside no eye can see.
"""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, graded
from teardowns.engine.mathml import equation, num, op, sym, word
from teardowns.engine.requirements.mains_parts import PRESENT
from teardowns.engine.requirements.solid_insulation import THICKNESS
from teardowns.engine.rule import safety

UNSEEN = 1


@safety(
    on="part", hazard="shock", confidence="A", measure="m",
    title="Inside of the optocoupler",
    source="IEC 62368-1:2018, 5.4.4.2 and G.12: 0.4 mm of solid insulation, or a type certified to "
           "IEC 60747-5-5; clause as in a test report on a charger, 2021, p. 28.",
    validity="Optocouplers from the mains side to the output. A printed type is a claim: whether "
             "it is certified, the unit does not show.",
    formula=equation(sym("d"), op("≥"), num("0.4"), word(" mm")),
    reasons=(
        "",
        "No look at the unit examined decides whether the inside of the optocoupler keeps mains "
        "and output apart; its pins are graded only where a distance was recorded there.",
    ),
)
def optocoupler(role, state):
    shape = role.shape
    return graded(
        np.full(shape, CANNOT_TELL), low=THICKNESS, high=THICKNESS, why=UNSEEN,
        applies=(role == "optocoupler") & np.isin(state, PRESENT))
