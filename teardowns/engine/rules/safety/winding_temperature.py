"""A transformer that runs too hot ages its own insulation."""
import numpy as np

from teardowns.engine.grading import CONFIDENCE, grade_max, graded
from teardowns.engine.mathml import EQ, MINUS, PLUS, equation, sym
from teardowns.engine.requirements.part_temperatures import (
    KNOWN_CLASS,
    WINDINGS,
    corrected,
    decided_by_load,
    winding_limit,
)
from teardowns.engine.rule import safety

FROM_MEMORY, ONE_SOURCE = CONFIDENCE.index("C"), CONFIDENCE.index("B")
STRICT, PERMISSIVE = WINDINGS.rows[0][2], WINDINGS.rows[2][2]


@safety(
    on="unit", hazard="fire", confidence="B", measure="°C", largest=True,
    title="Temperature of the transformer in the warmest air",
    source="IEC 62368-1:2018, table 9; IEC 60950-1, table 4B; 110 °C for class 130 by thermocouple "
           "in a test report on a charger, other classes from memory. Shift to the warmest marked "
           "air: B.2.6, from memory.",
    validity="By thermocouple, in steady state at full load.",
    formula=equation(sym("T", "c"), EQ, sym("T"), PLUS, sym("T", "ma"), MINUS, sym("T", "a")),
    symbols={"transformer_temperature": sym("T"), "rated_ambient": sym("T", "ma"),
             "ambient_temperature": sym("T", "a")},
    reasons=("", "The temperature of the air was not recorded: the evidence does not decide how "
                 "warm it becomes in the warmest air.",
             "The reading was made at another load than the printed output, where the "
             "temperature may differ: the evidence does not decide it."),
    optional=("transformer_temperature_u", "rated_ambient", "winding_thermal_class",
              "temperature_load", "largest_printed_output"),
)
def winding_temperature(transformer_temperature, transformer_temperature_u, ambient_temperature,
                        rated_ambient, winding_thermal_class, temperature_load,
                        largest_printed_output):
    value = corrected(transformer_temperature, ambient_temperature, rated_ambient)
    limit = winding_limit(winding_thermal_class)
    unknown = np.isnan(limit)
    strict = np.where(unknown, STRICT, limit)
    permissive = np.where(unknown, PERMISSIVE, limit)
    # Without its class a hotter winding may be made for it: a flag, no finding.
    read = winding_thermal_class == KNOWN_CLASS
    tabulated = grade_max(value, transformer_temperature_u, strict, permissive)
    grade = decided_by_load(tabulated, temperature_load, largest_printed_output)
    return graded(
        grade, value=value, u=transformer_temperature_u, low=strict, high=permissive,
        why=np.select([grade != tabulated, np.isnan(value)], [2, 1], 0),
        applies=~np.isnan(transformer_temperature),
        confidence=np.where(read, ONE_SOURCE, FROM_MEMORY),
        assumed={"printed_load": np.isnan(temperature_load + largest_printed_output),
                 "thermal_class": unknown, "ambient_25": np.isnan(rated_ambient)})
