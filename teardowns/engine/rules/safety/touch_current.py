"""The current that the output lets into somebody who touches it.

A measurement with the network of the standard decides. Without one, the capacitance across the
barrier gives an upper bound: what lies within the limit meets it, what lies above decides nothing.
"""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, grade_max, graded
from teardowns.engine.mathml import EQ, TIMES, equation, num, sym
from teardowns.engine.requirements.barriers import EARTHED_PLUGS
from teardowns.engine.requirements.mains_parts import rated_mains
from teardowns.engine.requirements.touch_current import (
    ABOVE_RATED,
    ES1,
    HIGHEST_FREQUENCY,
    LEGACY,
    USUAL_MAINS,
)
from teardowns.engine.requirements.touch_current import touch_current as through
from teardowns.engine.rule import safety

BOUND, ABOVE, UNKNOWN, EARTHED = 1, 2, 3, 4
# Of the most that is printed: a lower reading contradicts it. Tolerances of ± 20 % leave two thirds
# (application assumption).
AT_ODDS = 0.5


@safety(
    on="unit", hazard="shock", confidence="C", measure="A", largest=True,
    title="Touch current",
    source="0.5 mA rms: IEC 62368-1:2018, 5.2.2.2, table 4, ES1, from memory; 0.25 mA of the older "
           "IEC 60950-1, table 5A, as a product-safety list prints it.",
    validity="A.c. to 1 kHz, output not earthed. A computed value is an upper bound: the rectified "
             "mains carries less line-frequency voltage against earth than the mains.",
    formula=equation(sym("I"), EQ, num("2π"), sym("f"), TIMES, sym("C"), TIMES, num("1.1"),
                     sym("U")),
    symbols={"barrier_capacitance_most": sym("C"), "rated_voltage_high": sym("U"),
             "touch_current": sym("I")},
    reasons=(
        "",
        "That is no measurement but the most that the capacitors across the barrier can let "
        "through; it lies within the limit.",
        "That is no measurement but the most that the capacitors across the barrier could let "
        "through; it lies above the limit, which decides nothing: a measurement would.",
        "It was neither measured, nor is the capacitance across the barrier known: the evidence "
        "does not decide it. A measurement with the network of IEC 60990 would.",
        "The plug has an earth, to which the output may be joined: this limit is one for outputs "
        "that are not, and the evidence does not decide which holds.",
    ),
    asks={"touch_current": "How much touch current flows from the output to earth?"},
    optional=("touch_current", "touch_current_u", "barrier_capacitance", "barrier_capacitance_u",
              "barrier_capacitance_most", "found_barrier_capacitor", "rated_voltage_high"),
)
def touch_current(touch_current, touch_current_u, barrier_capacitance, barrier_capacitance_u,
                  barrier_capacitance_most, found_barrier_capacitor, plug, rated_voltage_high):
    measured = ~np.isnan(touch_current)
    by_meter = barrier_capacitance + barrier_capacitance_u
    printed = np.isnan(barrier_capacitance) | (by_meter < AT_ODDS * barrier_capacitance_most)
    capacitance = np.where(printed, barrier_capacitance_most, by_meter)
    fed = rated_mains(rated_voltage_high, plug)
    mains = np.where(np.isnan(rated_voltage_high), USUAL_MAINS, fed.high)
    most = through(capacitance, ABOVE_RATED * mains, HIGHEST_FREQUENCY)
    by_bound = np.where(most <= ES1, MEETS, CANNOT_TELL)
    value, u = np.where(measured, touch_current, most), np.where(measured, touch_current_u, 0.0)
    grade = np.where(measured, grade_max(value, u, ES1, ES1), by_bound)
    earthed = (grade == FALLS_SHORT) & np.isin(plug, EARTHED_PLUGS)
    return graded(
        np.where(earthed, CANNOT_TELL, grade), value=value, u=u, low=ES1,
        high=ES1,
        why=np.select([earthed, measured, np.isnan(most), most <= ES1],
                      [EARTHED, 0, UNKNOWN, BOUND], ABOVE),
        applies=measured | ~np.isnan(most) | (found_barrier_capacitor != 0),
        assumed={**{name: ~measured & fed.assumed[name] for name in
                    ("plug_above_plate", "plug_fits_plate")},
                 "bound": ~measured & ~np.isnan(most),
                 "mains_240": ~measured & np.isnan(rated_voltage_high),
                 "no_other_capacitance": ~measured & ~np.isnan(barrier_capacitance)
                 & np.isnan(barrier_capacitance_most),
                 "touch_network": measured, "printed_capacitance": ~measured & printed,
                 "highest_mains": ~measured, "mains_frequency": ~measured},
        numbers={"capacitance": capacitance, "legacy_limit": np.full(mains.shape, LEGACY),
                 "mains": mains})
