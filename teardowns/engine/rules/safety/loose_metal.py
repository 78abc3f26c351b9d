"""Metal that can move inside must not reach mains parts or shorten the way to the output."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

BRIDGES, CANNOT, SECURED, GLUED, NOT_LOOKED = 1, 2, 3, 4, 5


@safety(
    on="unit", hazard="shock", confidence="B", measure="m",
    title="Metal without a function in the case",
    source="IEC 62368-1:2018, 4.6, 4.9 and annex P; IEC 60950-1, 4.3 from memory.",
    validity="In any position of the unit. Distances past fixed metal are graded with the paths.",
    formula=equation(word("it can bridge nothing")),
    reasons=(
        "",
        "In the unit examined loose metal was found that in some position touches mains parts or "
        "shortens the way from the mains side to the output.",
        "In the unit examined loose metal was found that bridges nothing in any position.",
        "In the unit examined a weight is held by a screw and insulated.",
        "In the unit examined a weight is held by adhesive alone: the evidence does not decide "
        "whether it stays in place.",
        "In the unit examined loose metal was found; whether it can bridge anything was not looked "
        "at.",
    ),
    asks={"loose_metal_bridges": "Can the loose metal bridge the barrier in any position?"},
    optional=("loose_metal", "loose_metal_bridges", "ballast_secured", "ballast_glued"),
)
def loose_metal(loose_metal, loose_metal_bridges, ballast_secured, ballast_glued):
    loose = loose_metal == 1
    why = np.select(
        [(loose_metal != 0) & (loose_metal_bridges == 1), loose & (loose_metal_bridges != 0),
         ballast_glued == 1, loose, ballast_secured == 1],
        [BRIDGES, NOT_LOOKED, GLUED, CANNOT, SECURED], 0)
    grade = np.select([why == BRIDGES, np.isin(why, (CANNOT, SECURED))], [FALLS_SHORT, MEETS],
                      CANNOT_TELL)
    return graded(grade, why=why, applies=why > 0,
                  assumed={"no_loose_metal": np.isnan(loose_metal),
                           "no_bridging": np.isnan(loose_metal_bridges),
                           "not_glued": np.isnan(ballast_glued)})
