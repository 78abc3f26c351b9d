"""A transistor as output rectifier heats with the square of its current.

Its resistance rises by half when hot, and a small package sheds a watt or so.
"""
import numpy as np

from teardowns.engine.mathml import EQ, equation, frac, num, op, row, sym, word
from teardowns.engine.physics.output_stage import synchronous_limited_current
from teardowns.engine.physics.winding_currents import SECONDARY_RATIO
from teardowns.engine.rule import Worked, limit

HOT = 1.5             # resistance hot over that at 25 °C
PACKAGE = 1.5         # W, at most, of a package of the size of an SO-8; usually 0.6 W

_ROOT = f"<msqrt>{frac(sym('P', 'pkg'), row(num(HOT), sym('R', 'DS(on)')))}</msqrt>"


@limit(
    on="power",
    title="Synchronous rectifier's heat",
    # r 16 %; the package 30 % (power packages shed up to twice what an SO-8 does); the resistance
    # hot 10 %.
    model_error=0.35,
    # The same 10 mΩ transistor goes into chargers of 10 to 65 W. Where 0.6 W is shed, 0.68 would
    # do.
    margin=2.0,
    source="Conduction loss I²R. Resistance hot 1.5 times that at 25 °C; an SO-8 sheds 1.5 W at "
           "the most, 0.6 W in practice (from memory). r = 1.6 ± 0.25 of flyback secondaries "
           "(1.524 in Power Integrations AN-22 (5/98), p. 8).",
    validity="Flyback outputs with one transistor or several in parallel on one package's area. "
             "No bound behind a DC-DC converter at the port.",
    silent="Behind a converter at the port, the rectifier's current is not the port's.",
    formula=equation(sym("P"), EQ, frac(sym("U"), sym("r")), _ROOT, op(","), sym("P", "pkg"), EQ,
                     num(PACKAGE), word(" W"), op(","), sym("r"), EQ, num(SECONDARY_RATIO)),
    symbols={"synchronous_on_resistance": sym("R", "DS(on)"), "output_voltage": sym("U")},
    optional=("port_converter",),
    asks={"synchronous_on_resistance": "On-resistance of the synchronous rectifier at 25 °C, if "
                                       "there is one: from the data sheet of its marking."},
    worked=(
        # 10 A rms through 1.5 · 10 mΩ make 1.5 W; 10 A/1.6 = 6.25 A; times 5 V.
        Worked({"synchronous_on_resistance": 0.010, "output_voltage": 5.0,
                "port_converter": 0.0}, 31.25, 1e-9, "Worked from I²R = 1.5 W."),
    ),
)
def synchronous_rectifier(synchronous_on_resistance, output_voltage, port_converter):
    current = synchronous_limited_current(PACKAGE, HOT * synchronous_on_resistance,
                                          SECONDARY_RATIO)
    return np.where(port_converter == 1, np.nan, current * output_voltage)
