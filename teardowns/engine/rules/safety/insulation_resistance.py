"""A low resistance across the barrier hints at damage, dirt or a part that bridges it.

A high one says nothing about distances or layers.
"""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, CONFIDENCE, FALLS_SHORT, MEETS, grade_min, graded
from teardowns.engine.mathml import equation, num, op, sym
from teardowns.engine.requirements.insulation_resistance import HIGH as HIGHEST
from teardowns.engine.requirements.insulation_resistance import LOW as LOWEST
from teardowns.engine.requirements.touch_current import ES1
from teardowns.engine.rule import safety

LOW, DECIDED_OTHERWISE, BETWEEN, HIGH = 1, 2, 3, 4
ONE_SOURCE, FROM_MEMORY = CONFIDENCE.index("B"), CONFIDENCE.index("C")


@safety(
    on="unit", hazard="shock", confidence="B", measure="Ω",
    title="Insulation resistance across the barrier",
    source="2 MΩ for class II: VDE 0701-0702 as a tester's manual prints it; 4 MΩ (IEC 60065) and "
           "7 MΩ (IEC 61558-1) for reinforced insulation from memory.",
    validity="500 V d.c. for one minute, mains pins joined to output joined. A resistor across the "
             "barrier lowers the reading: look first.",
    formula=equation(sym("R"), op("≥"), num("2 … 7"), op("MΩ")),
    symbols={"insulation_resistance": sym("R"), "touch_current": sym("I")},
    reasons=(
        "",
        "It hints at damage, contamination or a part that bridges the barrier.",
        "The touch current was measured within its limit, which decides for electronic units of "
        "class II: the resistance alone decides nothing.",
        "Between the figures of several standards, the evidence does not decide it.",
        "It is consistent with intact insulation; it says nothing about distances or layers.",
    ),
    optional=("insulation_resistance_u", "touch_current", "touch_current_u"),
)
def insulation_resistance(insulation_resistance, insulation_resistance_u, touch_current,
                          touch_current_u):
    grade = grade_min(insulation_resistance, insulation_resistance_u, LOWEST, HIGHEST)
    within = touch_current - touch_current_u <= ES1      # more doubt never accuses
    why = np.select([(grade == FALLS_SHORT) & within, grade == FALLS_SHORT, grade == MEETS],
                    [DECIDED_OTHERWISE, LOW, HIGH], BETWEEN)
    return graded(np.where(why == DECIDED_OTHERWISE, CANNOT_TELL, grade),
                  value=insulation_resistance, u=insulation_resistance_u, low=LOWEST,
                  high=HIGHEST, why=why, applies=~np.isnan(insulation_resistance),
                  confidence=np.where(np.isin(why, (LOW, DECIDED_OTHERWISE)), ONE_SOURCE,
                                      FROM_MEMORY))
