"""The capacitor across the mains must be harmless by the time somebody touches the pins."""
import numpy as np

from teardowns.engine.grading import (
    CANNOT_TELL,
    CONFIDENCE,
    FALLS_SHORT,
    MEETS,
    grade_max,
    graded,
)
from teardowns.engine.mathml import EQ, TIMES, equation, power, sym
from teardowns.engine.requirements.discharge import (
    AFTER,
    HARMLESS,
    LARGE,
    LEGACY_FROM,
    allowed_voltage,
    voltage_after,
)
from teardowns.engine.requirements.mains_parts import rated_mains
from teardowns.engine.requirements.touch_current import ABOVE_RATED
from teardowns.engine.rule import safety

NOTHING, NOT_TRACED, ACTIVE, UNKNOWN, SMALL, UNREAD = 1, 2, 3, 4, 5, 6
ONE_SOURCE, FROM_MEMORY = CONFIDENCE.index("B"), CONFIDENCE.index("C")


@safety(
    on="unit", hazard="shock", confidence="B", measure="V", largest=True,
    title="Voltage between the pins two seconds after unplugging",
    source="IEC 62368-1:2018, 5.5.2.2 with table 5 (60 V from 300 nF on; the smaller capacitances "
           "from memory); IEC 60950-1, 2.1.1.7 asks for a time constant of at most 1 s above "
           "0.1 µF. A data sheet of a discharge part lists resistors for it.",
    validity="Capacitors between line and neutral ahead of the rectifier, resistors across them.",
    formula=equation(sym("V"), EQ, sym("V", "0"), TIMES, power(sym("e"), "−t/RC")),
    symbols={"x_capacitance": sym("C"), "discharge_resistance": sym("R"), "pin_voltage": sym("V")},
    reasons=(
        "",
        "In the unit examined a capacitor across the mains was found, the line path was traced, "
        "and neither a resistor nor an active part discharges it.",
        "No discharge resistor was recorded and the line path was not traced throughout: the "
        "evidence does not decide whether the pins are harmless after two seconds.",
        "An active discharge part was found: whether the pins are harmless after two seconds only "
        "a measurement would decide.",
        "The capacitance across the mains is not known: the evidence does not decide whether the "
        "pins are harmless after two seconds.",
        "Neither a resistor nor an active part was found that discharges the capacitor across the "
        "mains; of one of at most 0.1 µF the evidence does not decide whether the pins are "
        "harmless after two seconds.",
        "A discharge resistor was found; its value, or how several are joined, is not known: the "
        "evidence does not decide whether the pins are harmless after two seconds.",
    ),
    asks={"pin_voltage": "Which voltage do the pins hold two seconds after unplugging?"},
    optional=("pin_voltage", "pin_voltage_u", "x_capacitance", "x_capacitance_u",
              "discharge_resistance", "discharge_resistance_u", "discharge_circuit",
              "line_path_traced", "found_x_capacitor", "found_discharge_resistor",
              "rated_voltage_high"),
)
def plug_discharge(pin_voltage, pin_voltage_u, x_capacitance, x_capacitance_u,
                   discharge_resistance, discharge_resistance_u, discharge_circuit,
                   line_path_traced, found_x_capacitor, found_discharge_resistor, plug,
                   rated_voltage_high):
    measured = ~np.isnan(pin_voltage)
    mains = rated_mains(rated_voltage_high, plug)
    lenient, left = (voltage_after(AFTER, x_capacitance, discharge_resistance,
                                   np.sqrt(2.0) * ABOVE_RATED * line)
                     for line in (mains.low, mains.high))
    share = AFTER / (x_capacitance * discharge_resistance) * (
        discharge_resistance_u / discharge_resistance + x_capacitance_u / x_capacitance)
    value = np.where(measured, pin_voltage, left)
    u = np.where(measured, pin_voltage_u, left * share)
    most = np.where(np.isnan(x_capacitance), HARMLESS, allowed_voltage(x_capacitance))
    by_value = grade_max(value, u, HARMLESS, most)
    # It is above the limit only where it is so for every mains voltage that is assumed.
    spared = ~measured & (grade_max(lenient, lenient * share, HARMLESS, most) != FALLS_SHORT)
    # Of an unknown capacitance only what is harmless for every one is known.
    by_value = np.where((np.isnan(x_capacitance) | spared) & (by_value != MEETS), CANNOT_TELL,
                        by_value)
    # An active part beside a resistor leaves at most what the resistor alone would.
    computed = ~np.isnan(left) & ((discharge_circuit != 1) | (by_value == MEETS))
    none = (found_discharge_resistor == 0) & (discharge_circuit == 0)
    large = x_capacitance > LEGACY_FROM
    why = np.select(
        [measured | computed, np.isnan(x_capacitance), discharge_circuit == 1,
         none & large & (line_path_traced == 1), none & ~large, found_discharge_resistor == 1],
        [0, UNKNOWN, ACTIVE, NOTHING, SMALL, UNREAD], NOT_TRACED)
    shown = why == 0
    return graded(
        np.select([shown, why == NOTHING], [by_value, FALLS_SHORT], CANNOT_TELL),
        value=np.where(shown, value, np.nan), u=np.where(shown, u, np.nan), low=HARMLESS,
        high=most, why=why, applies=measured | (found_x_capacitor == 1) | (
            (found_x_capacitor != 0) & ~np.isnan(x_capacitance)),
        confidence=np.where((why == NOTHING) | (x_capacitance >= LARGE), ONE_SOURCE, FROM_MEMORY),
        assumed={**{name: ~measured & part for name, part in mains.assumed.items()},
                 "highest_mains": ~measured & shown,
                 "no_active_discharge": np.isnan(discharge_circuit) & ~measured & shown
                 & (by_value != MEETS)},
        numbers={"capacitance": x_capacitance, "resistance": discharge_resistance,
                 "start": np.sqrt(2.0) * ABOVE_RATED * mains.high})
