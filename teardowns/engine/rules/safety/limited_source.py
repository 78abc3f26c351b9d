"""A source that calls itself limited lets only so much current and power out, whatever the load."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, grade_max, graded
from teardowns.engine.mathml import equation, op, sym
from teardowns.engine.requirements.energy_sources import limited_current, limited_power
from teardowns.engine.rule import safety

HALF, POWER, POWER_OPEN, BEYOND = 1, 2, 3, 4


@safety(
    on="unit", hazard="fire", confidence="B", measure="A", largest=True,
    title="Current of the limited source into a short",
    source="IEC 60950-1, 2.5, tables 2B and 2C; IEC 62368-1:2018, annex Q; three published pages "
           "for table 2B, one for 2C.",
    validity="Where the unit claims a limited power source. 5 s, or 60 s behind a fuse or PTC. "
             "What limits it is not known: both tables are looked at.",
    formula=equation(sym("I", "sc"), op("≤"), sym("I", "max")),
    symbols={"short_circuit_current": sym("I", "sc")},
    reasons=("", "Current and power have both to be known for a limited source: the evidence does "
                 "not decide it.",
             "In the unit examined more power came out of the source than a limited one may give, "
             "with or without an overcurrent device.",
             "Whether more power comes out of the source than a limited one may give, the evidence "
             "does not decide.",
             "Limited sources are tabulated to 60 V: of a higher voltage the evidence does not "
             "decide it."),
    optional=("short_circuit_current", "short_circuit_current_u", "largest_apparent_power",
              "largest_apparent_power_u", "output_voltage_no_load", "claimed_output_voltage"),
)
def limited_source(claims_limited_source, short_circuit_current, short_circuit_current_u,
                   largest_apparent_power, largest_apparent_power_u, output_voltage_no_load,
                   claimed_output_voltage):
    volts = np.where(np.isnan(output_voltage_no_load), claimed_output_voltage,
                     output_voltage_no_load)
    strict, permissive = (limited_current(volts, device) for device in (False, True))
    current = grade_max(short_circuit_current, short_circuit_current_u,
                        np.minimum(strict, permissive), np.maximum(strict, permissive))
    power = grade_max(largest_apparent_power, largest_apparent_power_u, limited_power(volts),
                      limited_power(volts, True))
    short = (current == FALLS_SHORT) | (power == FALLS_SHORT)
    meets = (current == MEETS) & (power == MEETS)
    measured = ~np.isnan(short_circuit_current) | ~np.isnan(largest_apparent_power)
    half = np.isnan(short_circuit_current) | np.isnan(largest_apparent_power)
    why = np.select(
        [current == FALLS_SHORT, power == FALLS_SHORT, half, np.isnan(strict) & ~np.isnan(volts),
         current == MEETS], [0, POWER, HALF, BEYOND, np.where(power == MEETS, 0, POWER_OPEN)], 0)
    return graded(
        np.select([short, meets], [FALLS_SHORT, MEETS], CANNOT_TELL), value=short_circuit_current,
        u=short_circuit_current_u, low=np.minimum(strict, permissive),
        high=np.maximum(strict, permissive), why=why,
        applies=(claims_limited_source == 1) & measured,
        assumed={"printed_voltage": np.isnan(output_voltage_no_load)},
        numbers={"open_voltage": volts, "power": largest_apparent_power})
