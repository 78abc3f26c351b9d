"""The primary's copper carries so many amperes a square millimetre before it gets too hot.

Makers keep to 4 to 10 A/mm², so that the wire tells the current, and the current the power.
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
from teardowns.engine.physics.protection import INPUT_STAGE
from teardowns.engine.physics.winding_currents import rms_over_average
from teardowns.engine.physics.windings import (
    bundle_layers,
    carrying_area,
    layer_thickness,
)
from teardowns.engine.physics.wire import copper_area, copper_resistivity, skin_depth
from teardowns.engine.rule import Worked, habit

DENSITY = 7.0              # A/mm², the middle of the usual 4 to 10
RIPPLE_RATIO = 0.8         # K, usually 0.5 to 1.0
CREST_TO_MEAN = 0.90       # mean bus voltage over the peak
CORRECTED_BUS = 390.0      # V, behind a corrector
HOT = 100.0                # °C
LAYERS = 2.0               # fewer than most primaries have: the better case for the claim
PITCH = 1.1                # of a layer, over the bare diameter

# In ln: density 0.32, K 0.08, bus 0.07, layers 0.15, builds of enamel 0.15: together 0.40. The
# 12 A/mm² that are held to be the most lie 1.35 of it above the middle.
PRIOR = Habit("W at 1 A/mm²", ((1.0, DENSITY),), 0.40, sym("S", "W"))

_HEAT = f"<msqrt>{row(num(1), PLUS, paren(power(sym('r'), 2), MINUS, num(1)), sym('F'))}</msqrt>"
_SHAPE = row(frac(power(sym("K"), 2), num(3)), MINUS, sym("K"), PLUS, num(1))
_ROOT_D = f"<msqrt>{frac(_SHAPE, sym('D'))}</msqrt>"


@habit(
    on="power",
    title="Current density of the primary wire",
    prior=PRIOR,
    source="200 to 500 circular mils an ampere, 9.9 to 3.9 A/mm²: Power Integrations AN-18 "
           "(7/96), p. 10; 4 to 10 A/mm²: AN-22 (5/98), p. 8; at most 12 A/mm² (from memory). "
           "Ramps of a flyback primary with K = 0.8. F: two layers by Dowell (1966), at most 4.",
    validity="Flyback transformers wound of round wire, cooled by the air around them, windings "
             "below about 5 cm³.",
    formula=equation(
        sym("P"), EQ, frac(sym("η"), num(INPUT_STAGE)), TIMES, sym("V", "bus"), TIMES,
        frac(row(sym("J"), sym("S")), _HEAT), op(","),
        sym("J"), EQ, num(DENSITY), word(" A/mm²"), op(","), sym("r"), EQ,
        frac(_ROOT_D, row(num(1), MINUS, frac(sym("K"), num(2)))), op(","), sym("D"), EQ,
        frac(sym("V", "OR"), row(sym("V", "OR"), PLUS, sym("V", "bus"))), op(","),
        sym("V", "bus"), EQ, num(CREST_TO_MEAN), TIMES, f"<msqrt>{num(2)}</msqrt>", sym("V")),
    symbols={"primary_wire_diameter": sym("S"), "primary_strands": sym("S"),
             "efficiency": sym("η"), "mains_voltage": sym("V"),
             "power_factor_corrector": sym("V", "bus"), "reflected_voltage": sym("V", "OR"),
             "switching_frequency": sym("F")},
    asks={"primary_wire_diameter": "Bare diameter of the primary wire: measure one strand and "
                                   "take off 0.03 to 0.06 mm for its enamel.",
          "primary_strands": "How many strands of the primary lie in parallel?"},
    worked=(
        # V_bus = 0.9 · 141.42 = 127.28 V; D = 85/212.28 = 0.4004; r = √(0.41333/0.4004)/0.6 =
        # 1.6934, r² = 2.8675. A = 0.8343 · 0.16/0.2972 · 0.9535 = 0.428, F = 1 + 19/45 · A⁴ =
        # 1.0142; √(1 + 1.8675 · 1.0142) = 1.7012. 7 A/mm² · 0.020106 mm²/1.7012 = 0.08273 A;
        # 0.8 · 127.28 V · 0.08273 A.
        Worked({"primary_wire_diameter": 0.16e-3, "primary_strands": 1.0, "efficiency": 0.778,
                "mains_voltage": 100.0, "power_factor_corrector": 0.0,
                "reflected_voltage": 85.0, "switching_frequency": 65e3},
               8.424, 0.001, "Worked by hand: a single wire of 0.16 mm at 100 V, 65 kHz."),
    ),
)
def primary_current_density(primary_wire_diameter, primary_strands, efficiency, mains_voltage,
                            power_factor_corrector, reflected_voltage, switching_frequency):
    bus = np.where(power_factor_corrector == 1, CORRECTED_BUS,
                   np.where(power_factor_corrector == 0,
                            CREST_TO_MEAN * np.sqrt(2.0) * mains_voltage, np.nan))
    ratio = rms_over_average(reflected_voltage / (reflected_voltage + bus), RIPPLE_RATIO)
    depth = skin_depth(switching_frequency, copper_resistivity(HOT))
    thickness = layer_thickness(primary_wire_diameter, depth, PITCH * primary_wire_diameter)
    area = carrying_area(copper_area(primary_wire_diameter, primary_strands), thickness,
                         bundle_layers(LAYERS, primary_strands), ratio)
    return efficiency / INPUT_STAGE * bus * 1e6 * area / ratio
