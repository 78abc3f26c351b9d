"""The output rectifier's rating bounds the output even where nobody counted the turns.

The turns follow from the output voltage and the voltage that usual designs reflect onto the
primary, so that the rectifier sees several times the output voltage.
"""
import numpy as np

from teardowns.engine.mathml import EQ, MINUS, PLUS, equation, frac, num, op, row, sym, word
from teardowns.engine.physics.voltage_stress import reflected_limited_voltage
from teardowns.engine.rule import Worked, limit

DROP = 0.1            # V, a synchronous rectifier
# An output that switches reflects more at its highest voltage than usual designs do: 12 V at 12 : 1
# is 145 V, behind a 45 V rectifier.
SWITCHED = 1.3
LEAST = 4.5           # V; every charger gives more


@limit(
    on="voltage",
    title="Output rectifier's rating, turns unknown",
    model_error=0.05,
    margin=1.2,       # as where the turns were counted
    unless="voltage/rectifier_rating",
    source="Reverse voltage of the rectifier: Power Integrations AN-32, p. 15; reflected voltage "
           "of the rectifier: AN-23 (7/99), step 6, which advises at most 0.8 of the rating. The "
           "whole rating is the best case, and 1.3 times the usual reflected voltage, which "
           "outputs that switch reach at their highest voltage (from memory).",
    validity="Flyback converters without a power-factor corrector and without a DC-DC converter "
             "at the port; diodes, and of a synchronous rectifier the drain-source rating. The "
             "highest rated mains voltage.",
    silent="The line holds without a power-factor corrector and a converter at the port, and where "
           "the turns were not counted.",
    formula=equation(
        sym("U", "max"), EQ,
        frac(row(num(SWITCHED), sym("V", "OR"), sym("V", "RRM"), MINUS, sym("V", "pk"),
                 sym("V", "D")),
             row(num(SWITCHED), sym("V", "OR"), PLUS, sym("V", "pk"))),
        op(","), sym("V", "pk"), EQ, row(f"<msqrt>{num(2)}</msqrt>", sym("V")),
        op(","), sym("V", "D"), EQ, num(DROP), word(" V")),
    symbols={"rectifier_voltage_rating": sym("V", "RRM"), "reflected_voltage": sym("V", "OR"),
             "mains_voltage": sym("V"), "power_factor_corrector": word("corrector"),
             "port_converter": word("converter")},
    optional=("port_converter",),
    worked=(
        # With the note's 0.5 V of drop 5.00 V; with 0.1 V it is 375 · 0.4/451.4 = 0.33 V more.
        Worked({"rectifier_voltage_rating": 32.0, "reflected_voltage": 76.4 / SWITCHED,
                "mains_voltage": 375.0 / 2**0.5, "power_factor_corrector": 0.0,
                "port_converter": 0.0}, 5.33, 2e-3,
               "Power Integrations AN-23 (7/99), step 6: 32 V of a 40 V rectifier and 76.4 V of "
               "reflection belong to 5.0 V behind a drop of 0.5 V; here with 0.1 V."),
    ),
)
def rectifier_usual_turns(rectifier_voltage_rating, reflected_voltage, mains_voltage,
                          power_factor_corrector, port_converter):
    highest = reflected_limited_voltage(rectifier_voltage_rating, np.sqrt(2.0) * mains_voltage,
                                        SWITCHED * reflected_voltage, DROP)
    holds = (power_factor_corrector == 0) & (port_converter != 1) & (highest > LEAST)
    return np.where(holds, highest, np.nan)
