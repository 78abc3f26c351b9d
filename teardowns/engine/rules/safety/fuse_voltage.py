"""A fuse has to break the mains: its voltage mark is at least the rated mains voltage."""
import numpy as np

from teardowns.engine.grading import grade_min, graded
from teardowns.engine.mathml import equation, op, sym
from teardowns.engine.requirements.mains_parts import PRESENT, rated_mains
from teardowns.engine.rule import safety


@safety(
    on="part", hazard="fire", confidence="A", measure="V",
    title="Rated voltage of the fuse",
    source="IEC 62368-1:2018, G.3.4; marks by IEC 60127 from memory.",
    validity="Ratings as printed, a.c.",
    formula=equation(sym("U", "fuse"), op("≥"), sym("U", "mains")),
    symbols={"part_voltage": sym("U", "fuse"), "rated_voltage_high": sym("U", "mains")},
    reasons=("", "The voltage mark of the fuse was not read: the evidence does not decide it."),
    optional=("rated_voltage_high",),
)
def fuse_voltage(role, state, part_voltage, plug, rated_voltage_high):
    mains = rated_mains(rated_voltage_high, plug)
    return graded(
        grade_min(part_voltage, 0.0, mains.low, mains.high), value=part_voltage, u=0.0,
        low=mains.low, high=mains.high, why=np.isnan(part_voltage).astype(int),
        applies=(role == "fuse") & np.isin(state, PRESENT), assumed=mains.assumed)
