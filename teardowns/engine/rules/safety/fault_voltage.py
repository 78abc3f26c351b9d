"""After any single fault the output must still be harmless to touch."""
import numpy as np

from teardowns.engine.grading import grade_max, graded
from teardowns.engine.mathml import equation, num, op, sym, word
from teardowns.engine.requirements.energy_sources import ES1_DC
from teardowns.engine.rule import safety


@safety(
    on="unit", hazard="shock", confidence="A", measure="V", largest=True,
    title="Output voltage after one fault",
    source="IEC 62368-1:2018, B.4 and 5.2.2.2, table 4: 60 V d.c.; power supply makers' pages.",
    validity="As an equipped laboratory reported it; faults are not made for this record. What a "
             "connected device bears is another question.",
    formula=equation(sym("U"), op("≤"), num("60"), word(" V")),
    symbols={"fault_output_voltage": sym("U")},
    optional=("fault_output_voltage_u",),
)
def fault_voltage(fault_output_voltage, fault_output_voltage_u):
    return graded(grade_max(fault_output_voltage, fault_output_voltage_u, ES1_DC, ES1_DC),
                  value=fault_output_voltage, u=fault_output_voltage_u, low=ES1_DC, high=ES1_DC,
                  applies=~np.isnan(fault_output_voltage))
