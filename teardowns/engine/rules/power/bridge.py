"""All the power comes through the mains rectifier, whose average current is rated.

At a given power it carries the more current, the lower the mains voltage.
"""
import numpy as np

from teardowns.engine.mathml import EQ, TIMES, equation, frac, num, op, row, sym, word
from teardowns.engine.physics.protection import INPUT_STAGE
from teardowns.engine.rule import Worked, limit

# Power over average current of the rectifier, in parts of the mains voltage. A bulk capacitor
# rides at 0.85 to 0.93 of the peak, 0.90 · √2 = 1.27; a sine behind a corrector has the form
# factor π/(2√2), 1.11.
CAPACITOR, CORRECTED = 1.27, 1.11


@limit(
    on="power",
    title="Mains rectifier's current",
    model_error=0.10,
    # Parts come in few sizes, and the smallest bridge suits 50 W: one far larger than needed is no
    # sign of a large power. Where 0.6 of the rating is used, 0.76 would do.
    margin=3.0,
    source="Average output current rating of the bridge, four single diodes twice the rating of "
           "one; at most 1.0 of it, in practice 0.6 (from memory). Mean bus voltage 0.90 ± 0.05 "
           "of the peak, from circuit simulations of the valley.",
    validity="Bridges and single diodes at the mains, with or without a power-factor corrector. "
             "Makers take the next larger part, so that this line rarely binds.",
    formula=equation(sym("P"), EQ, frac(sym("η"), num(INPUT_STAGE)), TIMES, sym("k"), sym("V"),
                     TIMES, sym("I", "O"), op(","), sym("k"), EQ, num(CAPACITOR),
                     row(op("("), num(CORRECTED), word(" with a corrector"), op(")"))),
    silent="Whether there is a power-factor corrector is not known.",
    symbols={"bridge_current_rating": sym("I", "O"), "efficiency": sym("η"),
             "mains_voltage": sym("V"), "power_factor_corrector": word("corrector")},
    asks={"bridge_current_rating": "Current rating of the mains rectifier: read the marking of "
                                   "the bridge or of its diodes."},
    worked=(
        # 0.5 A · 1.27 · 100 V = 63.5 W from the bus; times 0.778/0.9725 = 0.8.
        Worked({"bridge_current_rating": 0.5, "efficiency": 0.778, "mains_voltage": 100.0,
                "power_factor_corrector": 0.0}, 50.8, 1e-9,
               "Worked: the smallest bridges are rated 0.5 A (from memory)."),
    ),
)
def bridge(bridge_current_rating, efficiency, mains_voltage, power_factor_corrector):
    share = np.where(power_factor_corrector == 1, CORRECTED,
                     np.where(power_factor_corrector == 0, CAPACITOR, np.nan))
    bus = bridge_current_rating * share * mains_voltage
    return bus * efficiency / INPUT_STAGE
