"""The current limit bounds the power even where nobody measured the primary inductance.

The switch conducts for a share of the period that follows from the reflected voltage, and in it
the current never exceeds the limit.
"""
import numpy as np

from teardowns.engine.mathml import (
    EQ,
    MINUS,
    PLUS,
    equation,
    frac,
    num,
    op,
    paren,
    row,
    sym,
    word,
)
from teardowns.engine.physics.flyback import duty_cycle
from teardowns.engine.physics.protection import INPUT_STAGE
from teardowns.engine.physics.rectifier import peak_voltage
from teardowns.engine.physics.winding_currents import winding_average
from teardowns.engine.rule import Worked, limit

DROP = 1.6            # V, two diodes of a bridge
FLATTEST = 0.4        # ripple over peak current, the least that designs use (from memory)


@limit(
    on="power",
    title="Current limit, inductance unknown",
    model_error=0.12,
    # Usual ripple 0.7 of the peak, the bus at its mean, the limit 1.2 times the current of full
    # load: half of the bound.
    margin=1.0,
    unless="power/current_sense",
    source="Bus voltage times the mean of the switch current, a trapezium that rises to the "
           "limit, with the flattest ripple that designs use, 0.4 of the peak (from memory), and "
           "the bus at its peak. Duty cycle: Power Integrations AN-19 (6/96), p. 14.",
    validity="Flyback converters without a power-factor corrector, with a sense resistor in the "
             "source or emitter of the switch. Not where the switch carries its own current limit.",
    silent="The line “Current limit” says the same with the inductance; or, with an active "
           "power-factor corrector, the sense resistor may be another stage's.",
    formula=equation(
        sym("P"), EQ, frac(sym("η"), num(INPUT_STAGE)), sym("V", "pk"), sym("D"),
        frac(sym("V", "CS"), sym("R", "CS")), paren(num(1), MINUS, frac(num(FLATTEST), num(2))),
        op(","), sym("D"), EQ, frac(sym("V", "OR"), row(sym("V", "OR"), PLUS, sym("V", "pk"))),
        op(","), sym("V", "pk"), EQ, row(f"<msqrt>{num(2)}</msqrt>", sym("V")), MINUS, num(DROP),
        word(" V")),
    symbols={
        "current_sense_resistance": sym("R", "CS"), "current_sense_threshold": sym("V", "CS"),
        "reflected_voltage": sym("V", "OR"), "efficiency": sym("η"), "mains_voltage": sym("V"),
        "power_factor_corrector": word("corrector"),
    },
    asks={"current_sense_resistance": "Current-sense resistor beside the primary switch: read its "
                                      "value; several in parallel count together."},
    worked=(
        # Peak (201.6 − 1.6) V = 200 V, D = 133.3/333.3 = 0.4, 1.5 A: 200 · 0.4 · 1.5 · 0.8 = 96 W,
        # within 5 % of the 100 W of the textbook's flatter current.
        Worked({"current_sense_resistance": 0.5, "current_sense_threshold": 0.75,
                "reflected_voltage": 133.33, "efficiency": 0.9725,
                "mains_voltage": 201.6 / 2**0.5, "power_factor_corrector": 0.0}, 100.0, 0.05,
               "R. W. Erickson, D. Maksimovic, Fundamentals of Power Electronics, 2nd ed., ch. 14 "
               "(from memory): 100 W at 200 V, D = 0.4 and a peak of 1.5 A, ripple 1/3 of it."),
    ),
)
def current_sense_alone(current_sense_resistance, current_sense_threshold, reflected_voltage,
                        efficiency, mains_voltage, power_factor_corrector):
    bus = peak_voltage(mains_voltage, DROP)
    peak = current_sense_threshold / current_sense_resistance
    drawn = bus * winding_average(peak, duty_cycle(reflected_voltage, bus, 0.0), FLATTEST)
    return np.where(power_factor_corrector == 0, drawn * efficiency / INPUT_STAGE, np.nan)
