"""Of capacitors in series across the barrier one may fail as a short: what the rest lets through.

It is worked out, never measured, and an upper bound: what lies within the limit meets it, what lies
above decides nothing.
"""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, MEETS, graded
from teardowns.engine.mathml import EQ, TIMES, equation, num, sym
from teardowns.engine.requirements.mains_parts import PRESENT, rated_mains
from teardowns.engine.requirements.safety_capacitors import barrier_of
from teardowns.engine.requirements.touch_current import (
    ABOVE_RATED,
    ES2,
    HIGHEST_FREQUENCY,
    UNREAD_TOLERANCE,
    USUAL_MAINS,
    one_shorted,
    touch_current,
)
from teardowns.engine.rule import safety

WITHIN, ABOVE, UNKNOWN = 1, 2, 3


@safety(
    on="part", hazard="shock", confidence="C", measure="A", largest=True,
    title="Touch current with one capacitor shorted",
    source="5 mA rms: IEC 62368-1:2018, 5.2.2.2, table 4, ES2, from memory; accepted after a "
           "single fault of a basic safeguard.",
    validity="Capacitors that lie in series across the barrier, all others there included. An "
             "upper bound by what is printed.",
    formula=equation(sym("I"), EQ, num("2π"), sym("f"), TIMES, sym("C", "one shorted"), TIMES,
                     num("1.1"), sym("U")),
    symbols={"barrier_capacitance_most": sym("C"), "rated_voltage_high": sym("U")},
    reasons=(
        "",
        "It is the most that could flow if one of the capacitors in series failed as a short; it "
        "lies within the limit for a single fault.",
        "It is the most that could flow if one of the capacitors in series failed as a short; it "
        "lies above the limit for a single fault, which decides nothing: a measurement would.",
        "The capacitance across the barrier is not known: the evidence does not decide what would "
        "flow if one of the capacitors in series failed as a short.",
    ),
    optional=("bridges", "count", "nominal", "tolerance", "barrier_capacitance_most",
              "rated_voltage_high"),
)
def fault_touch_current(role, state, bridges, count, in_series, nominal, tolerance,
                        barrier_capacitance_most, plug, rated_voltage_high):
    read = ~np.isnan(tolerance)
    most = nominal * (1.0 + np.where(read, tolerance, UNREAD_TOLERANCE))
    capacitance = one_shorted(barrier_capacitance_most, most, count)
    fed = rated_mains(rated_voltage_high, plug)
    mains = np.where(np.isnan(rated_voltage_high), USUAL_MAINS, fed.high)
    current = touch_current(capacitance, ABOVE_RATED * mains, HIGHEST_FREQUENCY)
    within = current <= ES2
    return graded(
        np.where(within, MEETS, CANNOT_TELL), value=current, u=0.0, low=ES2, high=ES2,
        why=np.select([np.isnan(current), within], [UNKNOWN, WITHIN], ABOVE),
        applies=np.isin(state, PRESENT) & (barrier_of(role, bridges) == "PRI_SEC")
                & (in_series == 1),
        assumed={**{name: fed.assumed[name] for name in ("plug_above_plate", "plug_fits_plate")},
                 "bound": ~np.isnan(current), "printed_capacitance": ~np.isnan(current),
                 "tolerance": ~read, "mains_240": np.isnan(rated_voltage_high),
                 "highest_mains": ~np.isnan(current), "mains_frequency": ~np.isnan(current)},
        numbers={"capacitance": capacitance, "mains": mains})
