"""The secondary's copper carries so many amperes a square millimetre before it gets too hot.

Makers keep to 4 to 10 A/mm², so that the wire tells the output current.
"""
import numpy as np

from teardowns.engine.habits import Habit
from teardowns.engine.mathml import (
    EQ,
    MINUS,
    PLUS,
    TIMES,
    equation,
    frac,
    num,
    op,
    paren,
    power,
    row,
    sym,
    word,
)
from teardowns.engine.physics.winding_currents import SECONDARY_RATIO
from teardowns.engine.physics.windings import carrying_area, layer_thickness
from teardowns.engine.physics.wire import copper_area, copper_resistivity, skin_depth
from teardowns.engine.rule import Worked, habit

DENSITY = 7.0              # A/mm², the middle of the usual 4 to 10
HOT = 100.0                # °C
# Strands side by side in one layer between two halves of the primary: the better case for the
# claim.
LAYERS = 0.5
PITCH = 1.1                # of a layer, over the bare diameter

# In ln: density 0.30, insulation over the wire 0.15, layers 0.15, ratio of rms to average 0.33, for
# it falls to 1.43 in continuous mode and 1.24 behind a corrector: together 0.50.
PRIOR = Habit("W at 1 A/mm²", ((1.0, DENSITY),), 0.50, sym("S", "W"))

_HEAT = f"<msqrt>{row(num(1), PLUS, paren(power(sym('r'), 2), MINUS, num(1)), sym('F'))}</msqrt>"


@habit(
    on="power",
    title="Current density of the secondary wire",
    prior=PRIOR,
    source="200 to 500 circular mils an ampere, 9.9 to 3.9 A/mm²: Power Integrations AN-18 "
           "(7/96), p. 10; 4 to 10 A/mm²: AN-22 (5/98), p. 8; at most 12 A/mm² (from memory). "
           "r = 1.6 ± 0.25 of flyback secondaries (1.524 in AN-22, p. 8). F: one layer between "
           "two halves of the primary by Dowell (1966), at most 4.",
    validity="Flyback transformers wound of round wire, cooled by the air around them, windings "
             "below about 5 cm³. Not for foil, nor behind a DC-DC converter at the port.",
    silent="Behind a converter at the port, the secondary's current is not the port's.",
    formula=equation(
        sym("P"), EQ, sym("U"), TIMES, frac(row(sym("J"), sym("S")), _HEAT), op(","), sym("J"), EQ,
        num(DENSITY), word(" A/mm²"), op(","), sym("r"), EQ, num(SECONDARY_RATIO)),
    symbols={"secondary_wire_diameter": sym("S"), "secondary_strands": sym("S"),
             "output_voltage": sym("U"), "switching_frequency": sym("F")},
    optional=("port_converter",),
    asks={"secondary_wire_diameter": "Bare diameter of one strand of the secondary: take off "
                                     "0.03 to 0.06 mm for enamel, 0.2 mm for triple insulation.",
          "secondary_strands": "How many strands of the secondary lie in parallel?"},
    worked=(
        # 0.66 mm: 0.3421 mm². A = 0.8343 · 0.66/0.2396 · 0.9535 = 2.191; half a layer has the
        # factor of a whole one half as thick, F = 1.121; √(1 + 1.56 · 1.121) = 1.658.
        # 7 A/mm² · 0.3421 mm²/1.658 = 1.444 A; times 5 V.
        Worked({"secondary_wire_diameter": 0.66e-3, "secondary_strands": 1.0,
                "output_voltage": 5.0, "switching_frequency": 100e3,
                "port_converter": float("nan")}, 7.22, 0.002,
               "The 5 V wire of Power Integrations AN-22 (5/98), p. 8, which carries 2.0 A at "
               "9 A/mm², by hand at 7 A/mm² and 100 kHz."),
    ),
)
def secondary_current_density(secondary_wire_diameter, secondary_strands, output_voltage,
                              switching_frequency, port_converter):
    depth = skin_depth(switching_frequency, copper_resistivity(HOT))
    thickness = layer_thickness(secondary_wire_diameter, depth, PITCH * secondary_wire_diameter)
    area = carrying_area(copper_area(secondary_wire_diameter, secondary_strands), thickness,
                         LAYERS, SECONDARY_RATIO)
    watts = 1e6 * area / SECONDARY_RATIO * output_voltage
    return np.where(port_converter == 1, np.nan, watts)
