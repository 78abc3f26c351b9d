"""Interference that a unit sends back into the mains: a matter of compliance, not of safety."""
import numpy as np

from teardowns.engine.grading import CANNOT_TELL, FALLS_SHORT, MEETS, grade_max, graded
from teardowns.engine.mathml import equation, op, sym
from teardowns.engine.requirements.emission import (
    BELOW_QUASI_PEAK,
    UNCERTAINTY,
    quasi_peak_limit,
)
from teardowns.engine.rule import safety

NOT_EQUIPPED, AVERAGE, ONE_DETECTOR = 1, 2, 3


@safety(
    on="unit", hazard="interference", confidence="A", measure="dBµV", largest=True,
    title="Conducted emission",
    source="EN 55032, class B, a.c. mains port, as a handbook's table of EN 55022 and a "
           "university's course page print it.",
    validity="50 µH/50 Ω network, the right detector, a trace of the noise floor; ± 3.5 dB.",
    formula=equation(sym("L"), op("≤"), sym("L", "max")),
    symbols={"emission_quasi_peak": sym("L"), "emission_frequency": sym("f")},
    reasons=("", "It was not taken with the network, the detector and the noise floor that the "
                 "standard asks for: the evidence does not decide it.",
             "By the average detector it lies above its limit.",
             "Only one detector was recorded: the evidence does not decide it."),
    optional=("emission_quasi_peak", "emission_average", "emission_frequency",
              "emission_equipped"),
)
def conducted_emission(emission_frequency, emission_quasi_peak, emission_average,
                       emission_equipped):
    limit = quasi_peak_limit(emission_frequency)
    peak = grade_max(emission_quasi_peak, UNCERTAINTY, limit, limit)
    average = grade_max(emission_average, UNCERTAINTY, limit - BELOW_QUASI_PEAK,
                        limit - BELOW_QUASI_PEAK)
    short = (peak == FALLS_SHORT) | (average == FALLS_SHORT)
    meets = (peak == MEETS) & (average == MEETS)
    equipped = emission_equipped == 1
    one = np.isnan(emission_quasi_peak) | np.isnan(emission_average)
    # The detector that decides is the one that is shown.
    by_average = np.isnan(emission_quasi_peak) | (
        (average == FALLS_SHORT) & (peak != FALLS_SHORT))
    shown = np.where(by_average, limit - BELOW_QUASI_PEAK, limit)
    return graded(
        np.select([equipped & short, equipped & meets], [FALLS_SHORT, MEETS], CANNOT_TELL),
        value=np.where(by_average, emission_average, emission_quasi_peak), u=UNCERTAINTY,
        low=shown, high=shown,
        why=np.select([~equipped, short & by_average, short, one],
                      [NOT_EQUIPPED, AVERAGE, 0, ONE_DETECTOR], 0),
        applies=~np.isnan(emission_quasi_peak) | ~np.isnan(emission_average))
