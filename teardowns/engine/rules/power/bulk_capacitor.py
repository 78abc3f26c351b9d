"""Between two mains peaks the converter lives on the bulk capacitor alone.

The smaller the capacitor, the less power it can bridge until the bus falls to the voltage at
which the converter leaves regulation.
"""
import numpy as np

from teardowns.engine.mathml import (
    EQ,
    MINUS,
    TIMES,
    equation,
    fn,
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
from teardowns.engine.physics.rectifier import bus_power, peak_voltage
from teardowns.engine.rule import limit

DROP = 0.8                  # V a diode; a bridge has two in the path

# A bridge in one body, or two of its diodes under glue, is taken for half wave once in fifty times
# (common practice, no source). At 100 V and 70 V a bridge draws 1.190/0.457 times as much.
MISCOUNTED, BRIDGE = 0.02, 2.6


def miscounted(bulk_capacitance, minimum_bus_voltage, rectifier_full_wave, *others):
    half = rectifier_full_wave <= 0.5
    return np.where(half, MISCOUNTED, 0.0), np.where(half, BRIDGE, 1.0)


_THETA_1, _THETA_2 = sym("θ", "1"), sym("θ", "2")
FORMULA = equation(
    sym("P"), EQ, frac(sym("η"), num(INPUT_STAGE)), TIMES, num("π"), sym("f"), sym("C"),
    power(sym("V", "pk"), 2), fn("sin", num(2), _THETA_1),
    op(","), word(" where "), power(fn("cos", _THETA_1), 2), MINUS,
    fn("sin", num(2), _THETA_1), paren(_THETA_2, MINUS, _THETA_1), EQ,
    power(paren(frac(sym("V", "min"), sym("V", "pk"))), 2),
    op(","), sym("V", "pk"), EQ, row(f"<msqrt>{num(2)}</msqrt>"), sym("V"), MINUS,
    sym("ΔV"), op(","), _THETA_2, EQ, sym("θ", "end"), MINUS,
    fn("arccos", frac(sym("V", "min"), sym("V", "pk"))), op(","), sym("θ", "end"), EQ,
    num("π"), word(" for a bridge, "), num("2π"), word(" for half wave"),
    op(","), sym("ΔV"), EQ, num(f"{2 * DROP} V"), word(" for a bridge, "),
    num(f"{DROP} V"), word(" for half wave"),
)


@limit(
    on="power",
    title="Bulk capacitor",
    model_error=0.04,
    doubt=miscounted,
    margin=0.45,
    source="Energy balance of the capacitor between two charging pulses, exact for ideal diodes; "
           "compared with circuit simulations (±0.5 V with a silicon bridge); rules of thumb: "
           "Power Integrations AN-23 (7/99), table 5.",
    validity="Capacitor-input rectifiers below about 75 W of input. No bound with an active "
             "power-factor corrector; not for voltage doublers or valley-fill circuits. Steady "
             "state: short overloads may exceed it. Half wave is doubted: one rectifier in fifty "
             "is miscounted.",
    silent="With an active power-factor corrector, or with a bus that never falls so low, the "
           "bulk capacitor sets no limit.",
    formula=FORMULA,
    symbols={
        "bulk_capacitance": sym("C"), "minimum_bus_voltage": sym("V", "min"),
        "rectifier_full_wave": sym("θ", "end"), "power_factor_corrector": word("corrector"),
        "efficiency": sym("η"), "mains_voltage": sym("V"), "mains_frequency": sym("f"),
    },
    asks={
        "bulk_capacitance": "Capacitance of the bulk capacitor was not recorded: read its "
                            "marking or measure it.",
        "power_factor_corrector": "Was an active power-factor corrector looked for? A claim "
                                  "above 65 W usually needs one, and the bulk capacitor says "
                                  "nothing until this is known.",
    },
)
def bulk_capacitor(bulk_capacitance, minimum_bus_voltage, rectifier_full_wave,
                   power_factor_corrector, efficiency, mains_voltage, mains_frequency):
    drop = np.where(rectifier_full_wave > 0.5, 2 * DROP, DROP)
    peak = peak_voltage(mains_voltage, drop)
    drawn = bus_power(bulk_capacitance, peak, minimum_bus_voltage, mains_frequency,
                      rectifier_full_wave)
    return np.where(power_factor_corrector == 0, drawn * efficiency / INPUT_STAGE, np.nan)
