"""The bulk capacitor stays within the temperature that its sleeve prints."""
import numpy as np

from teardowns.engine.grading import grade_max, graded
from teardowns.engine.mathml import EQ, MINUS, PLUS, equation, sym
from teardowns.engine.requirements.part_temperatures import PRINTED, corrected, decided_by_load
from teardowns.engine.rule import safety


@safety(
    on="unit", hazard="fire", confidence="B", measure="°C", largest=True,
    title="Temperature of the bulk capacitor in the warmest air",
    source="IEC 62368-1:2018, 4.1.2: a part is used within its rating; test reports take what is "
           "printed. Shift to the warmest marked air: B.2.6, from memory.",
    validity="On its sleeve, in steady state at full load.",
    formula=equation(sym("T", "c"), EQ, sym("T"), PLUS, sym("T", "ma"), MINUS, sym("T", "a")),
    symbols={"bulk_capacitor_temperature": sym("T"), "rated_ambient": sym("T", "ma"),
             "ambient_temperature": sym("T", "a")},
    reasons=("", "The temperature of the air was not recorded: the evidence does not decide how "
                 "warm it becomes in the warmest air.",
             "The reading was made at another load than the printed output, where the "
             "temperature may differ: the evidence does not decide it."),
    optional=("bulk_capacitor_temperature_u", "rated_ambient", "bulk_capacitor_temperature_rating",
              "temperature_load", "largest_printed_output"),
)
def capacitor_temperature(bulk_capacitor_temperature, bulk_capacitor_temperature_u,
                          ambient_temperature, rated_ambient, bulk_capacitor_temperature_rating,
                          temperature_load, largest_printed_output):
    value = corrected(bulk_capacitor_temperature, ambient_temperature, rated_ambient)
    unread = np.isnan(bulk_capacitor_temperature_rating)
    strict, permissive = (np.where(unread, usual, bulk_capacitor_temperature_rating)
                          for usual in PRINTED)
    tabulated = grade_max(value, bulk_capacitor_temperature_u, strict, permissive)
    grade = decided_by_load(tabulated, temperature_load, largest_printed_output)
    return graded(
        grade, value=value, u=bulk_capacitor_temperature_u, low=strict, high=permissive,
        why=np.select([grade != tabulated, np.isnan(value)], [2, 1], 0),
        applies=~np.isnan(bulk_capacitor_temperature),
        assumed={"printed_load": np.isnan(temperature_load + largest_printed_output),
                 "printed_temperature": unread, "ambient_25": np.isnan(rated_ambient)})
