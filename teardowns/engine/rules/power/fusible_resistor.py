"""A fusible resistor in the mains lead heats with the square of the line current.

It opens when it gets too hot, and is chosen so that it stays well below.
"""
from teardowns.engine.mathml import EQ, TIMES, equation, frac, num, row, sym
from teardowns.engine.physics.protection import mains_power, resistor_current
from teardowns.engine.rule import Worked, limit

OVERLOAD = 1.5        # times its rated dissipation, at most

_ROOT = f"<msqrt>{frac(row(num(OVERLOAD), sym('P', 'R')), sym('R'))}</msqrt>"


@limit(
    on="power",
    title="Fusible resistor's heat",
    model_error=0.10,
    # The same 1 to 2 W resistor goes into chargers of 3 to 15 W. Where 0.6 of the rated dissipation
    # is used, 0.68 would do.
    margin=2.0,
    source="Joule's law; at most 1.5 times the rated dissipation, in practice 0.6 (from memory). "
           "By size 4 × 10 mm has 1 W, 5 × 12 mm 2 W (from memory). P = V·I·PF·η.",
    validity="Wire-wound and film resistors in the mains lead, ahead of the rectifier. Not for "
             "thermistors.",
    formula=equation(sym("P"), EQ, sym("V"), TIMES, _ROOT, TIMES, sym("PF"), TIMES, sym("η")),
    silent="Whether there is a power-factor corrector is not known, nor then the line current.",
    symbols={"fusible_power_rating": sym("P", "R"), "fusible_resistance": sym("R"),
             "mains_voltage": sym("V"), "power_factor": sym("PF"), "efficiency": sym("η")},
    asks={
        "fusible_resistance": "Resistance of the fusible resistor in the mains lead, if there is "
                              "one: read its bands or measure it.",
        "fusible_power_rating": "Rated dissipation of the fusible resistor, if there is one: a "
                                "body of 4 × 10 mm has 1 W, of 5 × 12 mm 2 W.",
    },
    worked=(
        # 0.316 A · 100 V · 0.58 = 18.34 W in; times √1.5 · 0.8 = 0.9798.
        Worked({"fusible_resistance": 10.0, "fusible_power_rating": 1.0, "mains_voltage": 100.0,
                "power_factor": 0.58, "efficiency": 0.8}, 17.97, 0.001,
               "Worked: 1 W in 10 Ω is 0.316 A, at 100 V and 0.58 18.3 W in."),
    ),
)
def fusible_resistor(fusible_resistance, fusible_power_rating, mains_voltage, power_factor,
                     efficiency):
    current = resistor_current(OVERLOAD * fusible_power_rating, fusible_resistance)
    return mains_power(mains_voltage, current, power_factor) * efficiency
