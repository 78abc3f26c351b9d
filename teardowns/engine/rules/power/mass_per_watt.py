"""Chargers of more power weigh more, though not in proportion.

The habit is written for the capability, never for the claim: specific power grows from 0.20 W/g
at 5 W to 0.55 W/g at 55 W, so the mass alone gives a power, and no claim chooses the bracket.
"""
import numpy as np

from teardowns.engine.mathml import EQ, MINUS, TIMES, equation, frac, paren, power, row, sym, word
from teardowns.engine.rule import practice

# (25 g, 5 W) and (100 g, 55 W) carry the brackets 0.20 W/g up to 7 W and 0.55 W/g for 30 to
# 100 W; between them P = 5 W·(m / 25 g)^1.73 passes 0.30 W/g at 13.7 W and 0.38 W/g at 22.8 W,
# beside the brackets 0.28 (10 to 15 W) and 0.40 (18 to 30 W). Outside, specific power is constant.
LIGHT, HEAVY = 0.025, 0.100               # kg
LIGHT_POWER, HEAVY_POWER = 5.0, 55.0      # W
SLOPE = float(np.log(HEAVY_POWER / LIGHT_POWER) / np.log(HEAVY / LIGHT))


@practice(
    on="power",
    title="Mass per watt",
    # The brackets spread by a coefficient of variation of 0.3 to 0.4, 0.29 to 0.39 in ln at a
    # given power. Solved for the power this grows by the slope, 1.73 × 0.32.
    model_error=0.55,
    source="Specific power of whole units without cable, median and spread by bracket: 0.20 "
           "W/g to 7 W, 0.28 to 15 W, 0.40 to 30 W, 0.55 to 100 W; from memory, to be replaced "
           "by a fit to verified units.",
    validity="Plug-in and desktop chargers without cable, about 15 to 250 g. Parts found to "
             "have no function are taken off.",
    formula=equation(
        sym("P"), EQ, word("5 W"), TIMES,
        power(paren(frac(row(sym("m"), MINUS, sym("m", "ballast")), word("25 g"))),
              f"{SLOPE:.2f}")),
    symbols={"mass_total": sym("m"), "mass_ballast": sym("m", "ballast")},
    asks={"mass_total": "The unit was not weighed: weigh it without cable."},
)
def mass_per_watt(mass_total, mass_ballast):
    mass = mass_total - mass_ballast
    curved = LIGHT_POWER * (np.clip(mass, LIGHT, HEAVY) / LIGHT) ** SLOPE
    beyond = mass / np.clip(mass, LIGHT, HEAVY)
    return np.where(mass > 0, curved * beyond, np.nan)
