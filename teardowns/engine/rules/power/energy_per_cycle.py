"""What the unit carried while its switch was captured: on-time, bus voltage and inductance.

The primary takes up the energy of one on-time and hands it on, so many times a second. That says
what was carried at that moment, as a load that is held for seconds does, and nothing of the heat
that comes later. In continuous conduction more is carried than this: it is a floor in every mode.
"""
import numpy as np

from teardowns.engine.mathml import EQ, TIMES, equation, frac, num, paren, power, row, sym
from teardowns.engine.physics.flyback import boundary_power
from teardowns.engine.physics.protection import INPUT_STAGE
from teardowns.engine.rule import Worked, passed

SUSTAINED = 0.7           # of what was carried for a moment that counts as held; our own choice
CREST = 1.03 * np.sqrt(2)         # a rectified mains voltage is no higher, a meter's error apart
SAME_VOLTAGE = 1.1        # an output offered at so much more than the claim is another one


@passed(
    on="power",
    title="Energy of one period, captured",
    model_error=0.30,
    source="Energy of the primary inductance, L·I²/2 with I = V·t/L, once a period (Erickson and "
           "Maksimović, Fundamentals of Power Electronics, 2nd ed., converters in discontinuous "
           "conduction; from memory). That 0.7 ± 0.3 of what is carried for a moment is held for "
           "good is common practice, no source.",
    validity="Flyback converters; on-time, frequency and bus voltage of one capture, at the load "
             "in question. Exact in discontinuous conduction, a floor in continuous conduction. "
             "At mains voltages that give the bus voltage of the capture; not for a claim below "
             "the highest voltage that the unit offers, for the current is not known; where no "
             "load was held for seconds or minutes.",
    silent="A load that was held tells the same better, or the capture was taken at a higher mains "
           "or output voltage than the claim’s.",
    unless="power/sustained_power",
    formula=equation(
        sym("P"), EQ, num(SUSTAINED), TIMES, frac(sym("η"), num(INPUT_STAGE)), TIMES,
        sym("f"), TIMES,
        frac(power(paren(row(sym("V", "dc"), sym("t", "on"))), 2),
             row(num(2), sym("L", "p")))),
    optional=("peak_power", "offered_voltage", "advertised_voltage"),
    symbols={
        "on_time": sym("t", "on"), "bus_voltage": sym("V", "dc"),
        "primary_inductance": sym("L", "p"), "switching_frequency": sym("f"),
        "efficiency": sym("η"), "peak_power": sym("P", "10 s"),
        "offered_voltage": sym("U", "offered"), "advertised_voltage": sym("U", "advertised"),
        "mains_voltage": sym("V", "mains"), "output_voltage": sym("U"),
    },
    asks={"on_time": ""},            # asked by the load that was held
    worked=(
        # (100 V · 0.45/65 kHz)² / (2 · 1 mH) · 65 kHz = 15.577 W; 0.778/0.9725 = 0.8; times 0.7.
        Worked({"on_time": 0.45 / 65e3, "bus_voltage": 100.0, "primary_inductance": 1e-3,
                "switching_frequency": 65e3, "efficiency": 0.778, "mains_voltage": 100.0,
                "output_voltage": 5.0, "peak_power": np.nan, "offered_voltage": np.nan,
                "advertised_voltage": np.nan}, 0.7 * 0.8 * 2025 / 130, 1e-9,
               "Boundary power of 100 V, duty 0.45, 1 mH, 65 kHz, efficiency 0.8: 12.46 W out, "
               "by hand; 0.7 of it."),
    ),
)
def energy_per_cycle(on_time, bus_voltage, primary_inductance, switching_frequency, efficiency,
                     mains_voltage, output_voltage, peak_power, offered_voltage,
                     advertised_voltage):
    duty = on_time * switching_frequency
    drawn = boundary_power(bus_voltage, duty, primary_inductance, switching_frequency)
    elsewhere = np.fmax(offered_voltage, advertised_voltage) > SAME_VOLTAGE * output_voltage
    counts = (np.isnan(peak_power) & (duty < 1) & ~elsewhere
              & (bus_voltage <= CREST * mains_voltage))
    return np.where(counts, SUSTAINED * drawn * efficiency / INPUT_STAGE, np.nan)
