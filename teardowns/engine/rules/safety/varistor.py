"""A varistor that is rated too low conducts at the mains' own peaks and grows hot."""
import numpy as np

from teardowns.engine.grading import grade_min, graded
from teardowns.engine.mathml import TIMES, equation, num, op, sym
from teardowns.engine.requirements.mains_parts import PRESENT, VARISTOR, rated_mains
from teardowns.engine.rule import safety


@safety(
    on="part", hazard="fire", confidence="C", measure="V",
    title="Continuous voltage of the varistor",
    source="IEC 62368-1:2018, G.8: at least 1.25 times the rated mains voltage, from memory.",
    validity="Its largest continuous a.c. voltage, as printed or from its data sheet.",
    formula=equation(sym("U", "max"), op("≥"), num("1.25"), TIMES, sym("U", "mains")),
    symbols={"part_voltage": sym("U", "max"), "rated_voltage_high": sym("U", "mains")},
    reasons=("", "The voltage of the varistor was not read: the evidence does not decide it."),
    optional=("rated_voltage_high",),
)
def varistor(role, state, part_voltage, plug, rated_voltage_high):
    mains = rated_mains(rated_voltage_high, plug)
    low, high = VARISTOR * mains.low, VARISTOR * mains.high
    return graded(
        grade_min(part_voltage, 0.0, low, high), value=part_voltage, u=0.0, low=low, high=high,
        why=np.isnan(part_voltage).astype(int),
        applies=(role == "varistor") & np.isin(state, PRESENT), assumed=mains.assumed)
