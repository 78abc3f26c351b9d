"""A larger case holds a charger of more power; how much more, cases tell but vaguely.

Like the mass, the volume alone gives a power. Where the unit was weighed the mass speaks and the
volume, which says the same less well, is silent.
"""
from teardowns.engine.habits import Habit
from teardowns.engine.mathml import TIMES, row, sym
from teardowns.engine.rule import Worked, habit

# (20 cm³, 5 W) and (50 cm³, 55 W) carry the brackets 0.25 W/cm³ up to 7 W and 1.1 W/cm³ for 30 to
# 100 W; between them P = 5 W·(V / 20 cm³)^2.62 gives 16 W for the 31 cm³ of a 12.5 W unit (0.4)
# and 20 W for the 34 cm³ of a 24 W unit (0.7). The brackets' coefficient of variation, 0.4, is
# 0.385 in ln at a given power; solved for the power it grows by the slope: 2.62 × 0.385 = 1.0.
PRIOR = Habit("cm³", ((20.0, 5.0), (50.0, 55.0)), 1.0,
              row(sym("H"), TIMES, sym("W"), TIMES, sym("D")))


@habit(
    on="power",
    title="Volume per watt",
    prior=PRIOR,
    source="Power over outside volume, median by bracket: 0.25 W/cm³ to 7 W, 0.4 to 15 W, 0.7 to "
           "30 W, 1.1 to 100 W, each with a coefficient of variation of 0.4; from memory.",
    validity="Plug-in and desktop chargers with a case like a box, plug pins left out, about 10 to "
             "150 cm³.",
    silent="The unit was weighed: its mass says the same better.",
    unless="power/mass_per_watt",
    formula=PRIOR.formula,
    symbols={"case_height": sym("H"), "case_width": sym("W"), "case_depth": sym("D")},
    asks={"case_height": "The case was not measured: take its height, width and depth, plug pins "
                         "left out.",
          "case_width": "", "case_depth": ""},      # asked with the height
    worked=(
        Worked({"case_height": 0.05, "case_width": 0.04, "case_depth": 0.01}, 5.0, 1e-9,
               "0.25 W/cm³ of a 5 W unit (from memory): 20 cm³."),
        Worked({"case_height": 0.05, "case_width": 0.05, "case_depth": 0.02}, 55.0, 1e-9,
               "1.1 W/cm³ of a 55 W unit (from memory): 50 cm³."),
    ),
)
def volume_per_watt(case_height, case_width, case_depth):
    return 1e6 * case_height * case_width * case_depth
