"""The open primary switch stands bus, reflected output voltage and a spike, all at once.

What its rating leaves beside the bus at the highest rated mains voltage bounds the output.
"""
import numpy as np

from teardowns.engine.mathml import EQ, MINUS, equation, frac, num, op, paren, row, sym, word
from teardowns.engine.physics.voltage_stress import switch_limited_voltage
from teardowns.engine.rule import Worked, limit

SHARE = 0.95          # of the rating, at most
SPIKE = 40.0          # V, the least that leakage inductance adds; usual are 40 to 120 V
DROP = 0.1            # V, a synchronous rectifier
ROOM = 200.0          # V above the bus that the smallest suitable rating has (from memory)
LEAST = 4.5           # V; every charger gives more


@limit(
    on="voltage",
    title="Primary switch's rating",
    model_error=0.08,
    # Usual are 80 to 100 V of reflection where the rating leaves 200 to 250 V: a half, and less.
    margin=1.2,
    source="Sum of voltages around the open switch; 0.95 of the rating and a spike of 40 V are the "
           "best case, 40 to 120 V are usual (from memory).",
    validity="Flyback converters with one switch, without a power-factor corrector and without a "
             "DC-DC converter at the port. Of a bipolar transistor the rating with the base at "
             "the emitter counts (V_CES), not the lower V_CEO. The highest rated mains voltage.",
    silent="The line holds without a power-factor corrector and a converter at the port; a rating "
           "less than 200 V above the bus suits no such converter: it is read again, or, of a "
           "bipolar transistor, V_CES instead of V_CEO.",
    formula=equation(
        sym("U", "max"), EQ,
        paren(num(SHARE), sym("V", "DSS"), MINUS, row(f"<msqrt>{num(2)}</msqrt>", sym("V")), MINUS,
              num(SPIKE), word(" V")),
        frac(sym("N", "s"), sym("N", "p")), MINUS, num(DROP), word(" V"), op(".")),
    symbols={"switch_voltage_rating": sym("V", "DSS"), "primary_turns": sym("N", "p"),
             "secondary_turns": sym("N", "s"), "mains_voltage": sym("V"),
             "power_factor_corrector": word("corrector"), "port_converter": word("converter")},
    optional=("port_converter",),
    worked=(
        # √2 · 240 V = 339.4 V; 617.5 − 339.4 − 40 = 238.1 V, over 15, less 0.1: 15.77 V.
        Worked({"switch_voltage_rating": 650.0, "primary_turns": 75.0, "secondary_turns": 5.0,
                "mains_voltage": 240.0, "power_factor_corrector": 0.0, "port_converter": 0.0},
               15.77, 1e-3, "Worked by hand: a 650 V switch at 240 V, 75 and 5 turns."),
    ),
)
def switch_rating(switch_voltage_rating, primary_turns, secondary_turns, mains_voltage,
                  power_factor_corrector, port_converter):
    bus = np.sqrt(2.0) * mains_voltage
    highest = switch_limited_voltage(SHARE * switch_voltage_rating, bus, SPIKE, primary_turns,
                                     secondary_turns, DROP)
    holds = ((power_factor_corrector == 0) & (port_converter != 1) & (highest > LEAST)
             & (switch_voltage_rating > bus + ROOM))
    return np.where(holds, highest, np.nan)
