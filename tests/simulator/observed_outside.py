"""What a scale, a caliper and a look at the plate tell."""
import numpy as np

from .observed import Observed

BALLAST = 0.08          # of the units


def observe_plate(plates, chargers, who):
    legible, current = who.rng.random(who.n) < 0.95, who.rng.random(who.n) < 0.8
    return (Observed("rated_voltage_low", np.where(legible, chargers.mains_low, np.nan), 0.0),
            Observed("rated_voltage_high", np.where(legible, chargers.mains_high, np.nan), 0.0),
            Observed("rated_frequency", np.where(legible, 50.0, np.nan), 0.0),
            Observed("rated_input_current",
                     np.where(legible & current, plates.input_current, np.nan), 0.0))


def observe_outside(chargers, who):
    ballast = np.where(who.rng.random(who.n) < BALLAST,
                       chargers.mass * who.rng.uniform(0.2, 1.0, who.n), 0.0)
    total = who.measures("mass_total", chargers.mass + ballast, relative=0.005)
    # only inside is it seen; one piece in five passes for a part
    found = who.opened & (ballast > 0) & ~np.isnan(total.value) & (who.rng.random(who.n) < 0.8)
    sides = np.sort(chargers.case.sides, axis=1).T
    caliper = who.looks()
    order = {"case_height": sides[2], "case_width": sides[1], "case_depth": sides[0]}
    return (total, Observed("mass_ballast", np.where(found, ballast, np.nan), 0.01 * ballast),
            *(who.measures(code, side, 1 / who.regime.seen, caliper, absolute=0.5e-3)
              for code, side in order.items()))
