"""Chargers of more power weigh more, though not in proportion.

The habit is written for the capability, never for the claim: specific power grows from 0.20 W/g
at 5 W to 0.55 W/g at 55 W, so the mass alone gives a power, and no claim chooses the bracket.
"""
import numpy as np

from teardowns.engine.habits import Habit
from teardowns.engine.mathml import MINUS, row, sym
from teardowns.engine.rule import Worked, habit

# (25 g, 5 W) and (100 g, 55 W) carry the brackets 0.20 W/g up to 7 W and 0.55 W/g for 30 to
# 100 W; between them P = 5 W·(m / 25 g)^1.73 passes 0.30 W/g at 13.7 W and 0.38 W/g at 22.8 W,
# beside the brackets 0.28 (10 to 15 W) and 0.40 (18 to 30 W). Outside, specific power is constant.
# The brackets spread by a coefficient of variation of 0.3 to 0.4, 0.29 to 0.39 in ln at a given
# power. Solved for the power this grows by the slope, 1.73 × 0.32 = 0.55.
PRIOR = Habit("g", ((25.0, 5.0), (100.0, 55.0)), 0.55,
              row(sym("m"), MINUS, sym("m", "ballast")))

# Of units in which no ballast was found, those that have some all the same, or a shell of metal or
# a filling. A third of the mass without function leaves (2/3)^1.73 of the power.
OVERLOOKED, THEN = 0.1, 0.5


def overlooked(mass_total, mass_ballast):
    return np.where(mass_ballast > 0, 0.0, OVERLOOKED), np.full(mass_total.shape, THEN)


@habit(
    on="power",
    title="Mass per watt",
    prior=PRIOR,
    doubt=overlooked,
    source="Specific power of whole units without cable, median and spread by bracket: 0.20 "
           "W/g to 7 W, 0.28 to 15 W, 0.40 to 30 W, 0.55 to 100 W; from memory.",
    validity="Plug-in and desktop chargers without cable, about 15 to 250 g. Parts found to "
             "have no function are taken off; where none was found, one unit in ten is taken to "
             "have such parts all the same, a third of its mass (our own choice).",
    formula=PRIOR.formula,
    symbols={"mass_total": sym("m"), "mass_ballast": sym("m", "ballast")},
    asks={"mass_total": "The unit was not weighed: weigh it without cable."},
    worked=(
        Worked({"mass_total": 0.025, "mass_ballast": 0.0}, 5.0, 1e-9,
               "0.20 W/g of a 5 W unit (from memory): 25 g."),
        # 78.4 g in all of which 27.2 g do nothing: (51.2/25)^(ln 11/ln 4) = 3.455.
        Worked({"mass_total": 0.0784, "mass_ballast": 0.0272}, 17.28, 1e-3,
               "51.2 g that work: 5 W × (51.2/25)^1.73, worked out by hand."),
    ),
)
def mass_per_watt(mass_total, mass_ballast):
    return 1e3 * (mass_total - mass_ballast)
