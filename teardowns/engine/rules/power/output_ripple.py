"""The output capacitors take up the difference between the winding's pulses and a steady current.

What they take up heats them from within. The more output current, the more of it.
"""
import numpy as np

from teardowns.engine.mathml import EQ, MINUS, TIMES, equation, frac, num, op, power, row, sym
from teardowns.engine.physics.output_stage import ripple_limited_current
from teardowns.engine.physics.winding_currents import SECONDARY_RATIO
from teardowns.engine.rule import Worked, limit

OVERLOAD = 2.0        # times the rating, at most

_ROOT = row(f"<msqrt>{power(sym('r'), 2)}{MINUS}{num(1)}</msqrt>")


@limit(
    on="power",
    title="Ripple current of the output capacitors",
    model_error=0.26,
    # The rating itself lies 0.69 below the limit, the advised 1.5 to 2 times the ripple 1.1 to 1.4.
    margin=1.5,
    source="Ripple current: Power Integrations AN-16 (6/96), p. 22, and AN-17 (6/96), p. 10; "
           "ratings of 1.5 to 2 times the actual ripple are advised in AN-19 (6/96), p. 14. "
           "Twice the rating is taken as the most, the rating as usual. r = 1.6 ± 0.25 of "
           "flyback secondaries (1.3 to 2.2; 1.524 in AN-22 (5/98), p. 8).",
    validity="Electrolytic and polymer capacitors of a flyback output. Ceramic capacitors beside "
             "them take part of the ripple. No bound behind a DC-DC converter at the port.",
    silent="Behind a converter at the port, the current of the output winding is not the port's.",
    formula=equation(sym("P"), EQ, sym("U"), TIMES,
                     frac(row(num(OVERLOAD), sym("I", "R")), _ROOT),
                     op(","), sym("r"), EQ, num(SECONDARY_RATIO)),
    symbols={"output_ripple_rating": sym("I", "R"), "output_voltage": sym("U")},
    optional=("port_converter",),
    asks={"output_ripple_rating": "Ripple current rating of the output capacitors: read their "
                                  "series and size, or measure their diameter and length and "
                                  "count them."},
    worked=(
        # 2.0 A with r = 1.525 makes 2.303 A of ripple; with r = 1.6 as much is made by
        # 2.303/√1.56 = 1.844 A, twice the rating by 3.688 A; times 5 V.
        Worked({"output_ripple_rating": 2.303, "output_voltage": 5.0, "port_converter": 0.0},
               18.44, 0.001, "The ripple of Power Integrations AN-16 (6/96), p. 22, with the "
               "currents of AN-22 (5/98), p. 8; r = 1.6 in place of 1.525."),
    ),
)
def output_ripple(output_ripple_rating, output_voltage, port_converter):
    current = ripple_limited_current(OVERLOAD * output_ripple_rating, SECONDARY_RATIO)
    return np.where(port_converter == 1, np.nan, current * output_voltage)
