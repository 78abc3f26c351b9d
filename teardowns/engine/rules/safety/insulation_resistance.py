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

LOW, DECIDED_OTHERWISE, BETWEEN, HIGH, SCALE_ENDED, LOWER, HIGHER = 1, 2, 3, 4, 5, 6, 7
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
        "The instrument showed a limit in place of a value, and the limit decides nothing.",
        "That is a limit, and the resistance lies below it. It hints at damage, contamination or a "
        "part that bridges the barrier.",
        "That is a limit, and the resistance lies above it. It is consistent with intact "
        "insulation; it says nothing about distances or layers.",
    ),
    optional=("insulation_resistance", "insulation_resistance_u", "insulation_resistance_at_least",
              "insulation_resistance_at_most", "touch_current", "touch_current_u"),
)
def insulation_resistance(insulation_resistance, insulation_resistance_u,
                          insulation_resistance_at_least, insulation_resistance_at_most,
                          touch_current, touch_current_u):
    """A tester whose scale ends shows no value; a limit decides where the value beyond it would."""
    is_read = ~np.isnan(insulation_resistance)
    least = np.where(is_read, insulation_resistance, insulation_resistance_at_least)
    most = np.where(is_read, insulation_resistance, insulation_resistance_at_most)
    u = np.where(is_read, insulation_resistance_u, 0.0)
    meets = grade_min(least, u, LOWEST, HIGHEST) == MEETS
    short = grade_min(most, u, LOWEST, HIGHEST) == FALLS_SHORT
    grade = np.select([meets & ~short, short & ~meets], [MEETS, FALLS_SHORT], CANNOT_TELL)
    within = touch_current - touch_current_u <= ES1      # more doubt never accuses
    why = np.select([(grade == FALLS_SHORT) & within, grade == FALLS_SHORT, grade == MEETS],
                    [DECIDED_OTHERWISE, np.where(is_read, LOW, LOWER),
                     np.where(is_read, HIGH, HIGHER)], np.where(is_read, BETWEEN, SCALE_ENDED))
    value = np.where(np.isnan(least) | short, most, least)
    return graded(np.where(why == DECIDED_OTHERWISE, CANNOT_TELL, grade),
                  value=value, u=u, low=LOWEST,
                  high=HIGHEST, why=why, applies=~np.isnan(value),
                  assumed={"only_a_limit": ~is_read & (grade == MEETS)},
                  confidence=np.where(np.isin(why, (LOW, LOWER, DECIDED_OTHERWISE)), ONE_SOURCE,
                                      FROM_MEMORY))
