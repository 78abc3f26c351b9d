"""A capacitor across the mains is rated for at least the highest rated mains voltage."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, grade_min, graded
from teardowns.engine.mathml import equation, op, sym
from teardowns.engine.requirements.mains_parts import LOWEST_BULK, PRESENT, rated_mains
from teardowns.engine.requirements.safety_capacitors import barrier_of
from teardowns.engine.rule import safety


@safety(
    on="part", hazard="fire", confidence="B", measure="V",
    title="Rated voltage of the capacitor across the mains",
    source="Engineering rule: a part is used within its rating (IEC 62368-1:2018, 4.1.2); parts of "
           "IEC 60384-14 are endurance-tested at 1.25 times their rating (X), 1.7 times (Y).",
    validity="Ratings as printed, a.c.",
    formula=equation(sym("U", "r"), op("≥"), sym("U", "mains")),
    symbols={"part_voltage": sym("U", "r"), "rated_voltage_high": sym("U", "mains")},
    reasons=("", "The rating of the capacitor was not read: the evidence does not decide it.",
             "No capacitor across any mains has so low a rating, nor would it outlive being "
             "plugged in: it lies elsewhere, or its rating is misread. The evidence does not "
             "decide it."),
    optional=("rated_voltage_high", "bridges"),
)
def mains_capacitor_voltage(role, state, bridges, part_voltage, plug, rated_voltage_high):
    mains = rated_mains(rated_voltage_high, plug)
    misread = part_voltage < LOWEST_BULK
    return graded(
        np.where(misread, CANNOT_TELL, grade_min(part_voltage, 0.0, mains.low, mains.high)),
        value=part_voltage, u=0.0, low=mains.low, high=mains.high,
        why=np.select([np.isnan(part_voltage), misread], [1, 2], 0),
        applies=np.isin(state, PRESENT) & (barrier_of(role, bridges) == "L_N"),
        assumed=mains.assumed)
