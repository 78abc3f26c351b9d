"""The controller ends each pulse at the current that its sense resistor sets.

That current and the primary inductance say how much energy one period takes from the bus.
"""
import numpy as np

from teardowns.engine.mathml import EQ, equation, frac, num, paren, power, row, sym, word
from teardowns.engine.physics.flyback import drawn_power
from teardowns.engine.physics.protection import INPUT_STAGE
from teardowns.engine.rule import Worked, limit


@limit(
    on="power",
    title="Current limit",
    model_error=0.12,
    # Limits lie 1.1 to 1.3 times above the current of full load, and most converters keep some
    # current flowing: together 0.5 to 0.8 of the bound.
    margin=0.8,
    source="Energy of the primary inductance at the current limit, once a period; largest in "
           "discontinuous conduction, and so a bound in every mode. The delay of the controller "
           "lets the current rise 5 to 14 % beyond its limit (from memory).",
    validity="Flyback converters without a power-factor corrector, with a sense resistor in the "
             "source or emitter of the switch. Not where the switch carries its own current limit. "
             "Inductance with the other windings open.",
    silent="With an active power-factor corrector the sense resistor may be another stage's, and "
           "it sets no limit.",
    formula=equation(
        sym("P"), EQ, frac(sym("η"), num(INPUT_STAGE)),
        frac(row(sym("L", "p"), sym("f")), num(2)),
        power(paren(frac(sym("V", "CS"), sym("R", "CS"))), 2)),
    symbols={
        "primary_inductance": sym("L", "p"), "current_sense_resistance": sym("R", "CS"),
        "current_sense_threshold": sym("V", "CS"), "switching_frequency": sym("f"),
        "efficiency": sym("η"), "power_factor_corrector": word("corrector"),
    },
    asks={"primary_inductance": "Primary inductance, the other windings open: measure it at low "
                                "level on the assembled transformer."},
    worked=(
        # 1.4 mH · (0.4 A)² · 65 kHz/2 = 7.28 W from the bus; 0.778/0.9725 = 0.8: 5.824 W.
        Worked({"primary_inductance": 1400e-6, "current_sense_resistance": 1.25,
                "current_sense_threshold": 0.5, "switching_frequency": 65e3,
                "efficiency": 0.778, "power_factor_corrector": 0.0}, 5.824, 1e-9,
               "Worked by hand: 0.4 A in 1400 µH."),
    ),
)
def current_sense(primary_inductance, current_sense_resistance, current_sense_threshold,
                  switching_frequency, efficiency, power_factor_corrector):
    peak = current_sense_threshold / current_sense_resistance
    drawn = drawn_power(primary_inductance, peak, 1.0, switching_frequency)
    return np.where(power_factor_corrector == 0, drawn * efficiency / INPUT_STAGE, np.nan)
