"""Something in the mains lead has to open before a fault becomes a fire."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, graded
from teardowns.engine.mathml import equation, word
from teardowns.engine.rule import safety

FUSE, NOTHING, TRACK, NOT_TRACED, AHEAD = 1, 2, 3, 4, 5


@safety(
    on="unit", hazard="fire", confidence="A", measure="A",
    title="Protection against overcurrent",
    source="IEC 62368-1:2018, 6.3, 6.4.3, G.3.4 and G.3.5; IEC 60950-1, 2.7.",
    validity="The first part in the line conductor, as found. Whether it opens in time is not "
             "examined.",
    formula=equation(word("a fuse, or a fusible resistor")),
    reasons=(
        "",
        "In the unit examined a fuse was found in the mains lead.",
        "In the unit examined the line path was traced and neither a fuse nor a fusible resistor "
        "was found in it.",
        "In the unit examined a narrow track or a wire link is all that could open in the mains "
        "lead.",
        "Neither a fuse nor a fusible resistor was recorded and the line path was not traced "
        "throughout: the evidence does not decide whether the unit has a protective part.",
        "A varistor or capacitor lies ahead of the protective part: a reviewer should look whether "
        "it can fail as a short.",
    ),
    asks={"line_path_traced": "Which part comes first in the line conductor, from the pin on?"},
    optional=("found_fuse", "found_fusible_resistor", "line_path_traced", "track_as_fuse",
              "part_before_fuse"),
)
def mains_protection(found_fuse, found_fusible_resistor, line_path_traced, track_as_fuse,
                     part_before_fuse):
    fuse, resistor = found_fuse == 1, found_fusible_resistor == 1
    nothing = (found_fuse == 0) & (found_fusible_resistor == 0)
    why = np.select(
        [nothing & (track_as_fuse == 1), nothing & (line_path_traced == 1), part_before_fuse == 1,
         fuse, track_as_fuse == 1], [TRACK, NOTHING, AHEAD, FUSE, TRACK], NOT_TRACED)
    return graded(
        np.select([why == FUSE, np.isin(why, (NOTHING, TRACK))], [MEETS, FALLS_SHORT], CANNOT_TELL),
        why=why, applies=~resistor | fuse | (part_before_fuse == 1),
        assumed={"nothing_ahead": fuse & np.isnan(part_before_fuse)})
