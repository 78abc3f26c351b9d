"""The output rectifier stands the output voltage and the bus, divided by the turns ratio.

What its rating leaves beside the bus at the highest rated mains voltage bounds the output.
"""
import numpy as np

from teardowns.engine.mathml import EQ, MINUS, equation, frac, num, row, sym, word
from teardowns.engine.physics.output_stage import output_voltage_of_reverse
from teardowns.engine.rule import Worked, limit

LEAST = 4.5           # V; every charger gives more


@limit(
    on="voltage",
    title="Output rectifier's rating",
    model_error=0.05,
    # At most 0.8 of the rating is advised, which leaves half to two thirds of the bound, and
    # ratings come in steps of 1.3 to 2.
    margin=1.2,
    source="Reverse voltage of the rectifier: Power Integrations AN-32, p. 15; at most 0.8 of the "
           "rating is advised: AN-23 (7/99), step 6. The whole rating is the best case.",
    validity="Flyback converters without a power-factor corrector and without a DC-DC converter "
             "at the port; diodes, and of a synchronous rectifier the drain-source rating. The "
             "highest rated mains voltage.",
    silent="The line holds without a power-factor corrector and a converter at the port; a rating "
           "that leaves less than 4.5 V suits no charger: it, or the turns, are read again.",
    formula=equation(sym("U", "max"), EQ, sym("V", "RRM"), MINUS,
                     row(f"<msqrt>{num(2)}</msqrt>", sym("V")),
                     frac(sym("N", "s"), sym("N", "p"))),
    symbols={"rectifier_voltage_rating": sym("V", "RRM"), "primary_turns": sym("N", "p"),
             "secondary_turns": sym("N", "s"), "mains_voltage": sym("V"),
             "power_factor_corrector": word("corrector"), "port_converter": word("converter")},
    optional=("port_converter",),
    asks={"rectifier_voltage_rating": "Voltage rating of the output rectifier: read its marking; "
                                      "of a transistor, its drain-source rating."},
    worked=(
        Worked({"rectifier_voltage_rating": 30.0, "primary_turns": 75.0, "secondary_turns": 5.0,
                "mains_voltage": 375.0 / 2**0.5, "power_factor_corrector": 0.0,
                "port_converter": 0.0}, 5.0, 1e-9,
               "Power Integrations AN-32, p. 15: 5 V at 15 : 1 and 375 V put 30 V on the "
               "rectifier."),
    ),
)
def rectifier_rating(rectifier_voltage_rating, primary_turns, secondary_turns, mains_voltage,
                     power_factor_corrector, port_converter):
    highest = output_voltage_of_reverse(rectifier_voltage_rating, np.sqrt(2.0) * mains_voltage,
                                        primary_turns / secondary_turns)
    holds = (power_factor_corrector == 0) & (port_converter != 1) & (highest > LEAST)
    return np.where(holds, highest, np.nan)
