"""What comes out at a port may be touched by anyone."""
import numpy as np

from teardowns.engine.grading import grade_max, graded
from teardowns.engine.mathml import equation, num, op, sym, word
from teardowns.engine.requirements.energy_sources import ES1_DC, ES2_DC
from teardowns.engine.rule import safety

CLAIMED = 1


@safety(
    on="unit", hazard="shock", confidence="A", measure="V", largest=True,
    title="Voltage at the output",
    source="IEC 62368-1:2018, 5.2.2.2, table 4: 60 V d.c. for what anyone may touch, 120 V after a "
           "single fault; power supply makers' pages.",
    validity="D.c. outputs, without ripple worth mentioning.",
    formula=equation(sym("U"), op("≤"), num("60"), word(" V")),
    symbols={"offered_voltage": sym("U")},
    reasons=("", "It was not measured. What is printed may be touched; the evidence does not "
                 "decide what comes out."),
    optional=("offered_voltage", "offered_voltage_u", "output_voltage_no_load",
              "output_voltage_no_load_u", "claimed_output_voltage"),
)
def accessible_output(offered_voltage, offered_voltage_u, output_voltage_no_load,
                      output_voltage_no_load_u, claimed_output_voltage):
    port = grade_max(offered_voltage, offered_voltage_u, ES1_DC, ES2_DC)
    idle = grade_max(output_voltage_no_load, output_voltage_no_load_u, ES1_DC, ES2_DC)
    # The worse of both decides, however vague the other is; of equal ones the higher.
    higher = (idle == port) & (output_voltage_no_load > offered_voltage)
    by_idle = ~np.isnan(output_voltage_no_load) & (
        np.isnan(offered_voltage) | (idle < port) | higher)
    value = np.where(by_idle, output_voltage_no_load, offered_voltage)
    u = np.where(by_idle, output_voltage_no_load_u, offered_voltage_u)
    measured = ~np.isnan(value)
    return graded(
        np.where(by_idle, idle, port), value=value, u=u,
        low=ES1_DC, high=ES2_DC, why=np.where(measured, 0, CLAIMED),
        applies=measured | ~np.isnan(claimed_output_voltage),
        assumed={"no_other_voltage": np.isnan(offered_voltage) | np.isnan(output_voltage_no_load)})
