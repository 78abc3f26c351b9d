"""A case that people touch must not burn them."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, CONFIDENCE, grade_max, graded
from teardowns.engine.mathml import equation, op, sym
from teardowns.engine.requirements.part_temperatures import decided_by_load
from teardowns.engine.requirements.touch_temperature import (
    BRIEF,
    BRIEFEST,
    in_usual_air,
    largest_temperature,
)
from teardowns.engine.rule import safety

FROM_MEMORY = CONFIDENCE.index("C")


@safety(
    on="unit", hazard="burn", confidence="A", measure="°C", largest=True,
    title="Temperature of the case",
    source="IEC 62368-1:2018, table 38, TS1: plastic 77 °C for 1 s to 10 s and 94 °C below 1 s in "
           "threads of a product-safety list; metal 60 and 70 °C from memory.",
    validity="Hottest point outside in steady state, air of 20 °C to 30 °C (the band from memory); "
             "a reading in colder or warmer air decides only what that band would too.",
    formula=equation(sym("T"), op("≤"), sym("T", "S1")),
    symbols={"case_temperature": sym("T")},
    reasons=("", "The reading was made at another load than the printed output, where the "
             "temperature may differ: the evidence does not decide it.",
             "The air was colder or warmer than 20 °C to 30 °C, for which the limit is made: the "
             "evidence does not decide what the case would reach there."),
    optional=("case_temperature_u", "ambient_temperature", "case_is_metal",
              "temperature_load", "largest_printed_output"),
)
def touch_temperature(case_temperature, case_temperature_u, ambient_temperature, case_is_metal,
                      temperature_load, largest_printed_output):
    metal = case_is_metal == 1
    strict, permissive = (largest_temperature(metal, row) for row in (BRIEF, BRIEFEST))
    recorded = grade_max(case_temperature, case_temperature_u, strict, permissive)
    shifted = grade_max(in_usual_air(case_temperature, ambient_temperature), case_temperature_u,
                        strict, permissive)
    tabulated = np.where(shifted == recorded, recorded, CANNOT_TELL)
    grade = decided_by_load(tabulated, temperature_load, largest_printed_output)
    return graded(
        grade, value=case_temperature, u=case_temperature_u, low=strict, high=permissive,
        why=np.select([grade != tabulated, tabulated != recorded], [1, 2], 0),
        applies=~np.isnan(case_temperature),
        confidence=np.where(metal, FROM_MEMORY, 0),
        assumed={"printed_load": np.isnan(temperature_load + largest_printed_output),
                 "air_near_25": np.isnan(ambient_temperature),
                 "contact": np.ones(metal.shape, bool),
                 "plastic_case": np.isnan(case_is_metal)})
