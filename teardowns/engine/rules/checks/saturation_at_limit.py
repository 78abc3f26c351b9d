"""A current limit protects the core only if it acts before the core saturates.

Inductance, turns, cross-section and sense resistor together say what flux the limit allows.
"""
from math import isnan

from teardowns.engine.default_values.flyback import (
    HIGHEST_THRESHOLD,
    LOWEST_THRESHOLD,
    SATURATION,
)
from teardowns.engine.mathml import EQ, equation, frac, row, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.magnetic_core import flux_density
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

USUAL = 0.30          # T, the ceiling that designs keep to
COLD = 1.35           # what ferrite carries at 25 °C over what it carries at 100 °C


@check(
    on="unit",
    title="Flux density at the current limit",
    source="Flux linkage L·I = N·B·A_e. Designs keep to 0.30 T: Infineon DN 2013-01; power "
           "ferrites carry 0.38 to 0.42 T at 100 °C and 0.47 to 0.53 T at 25 °C "
           "(PyOpenMagnetics 1.7.35).",
    validity="Flyback converters without a power-factor corrector, with a sense resistor in the "
             "source or emitter of the switch. Where the threshold of the controller was not "
             "read, 0.5 to 1.0 V are looked at, and nothing is held against the unit.",
    formula=equation(sym("B"), EQ, frac(row(sym("L", "p"), sym("V", "CS")),
                                        row(sym("R", "CS"), sym("N", "p"), sym("A", "e")))),
    symbols={
        "primary_inductance": sym("L", "p"), "primary_turns": sym("N", "p"),
        "core_effective_area": sym("A", "e"), "current_sense_resistance": sym("R", "CS"),
        "current_sense_threshold": sym("V", "CS"),
    },
)
def saturation_at_limit(primary_inductance, primary_turns, core_effective_area,
                        current_sense_resistance, current_sense_threshold,
                        saturation_flux_density, power_factor_corrector):
    seen = not isnan(primary_inductance) and current_sense_resistance > 0
    if not seen or power_factor_corrector == 1:
        return None
    if not (primary_turns > 0 and core_effective_area > 0):
        return Outcome(CANNOT_TELL, "The primary turns or the cross-section of the core were not "
                                    "recorded: count the turns, read or measure the core.")
    read = current_sense_threshold > 0
    lowest, highest = (current_sense_threshold if read else usual
                       for usual in (LOWEST_THRESHOLD, HIGHEST_THRESHOLD))
    peak = lowest / current_sense_resistance
    reached = flux_density(primary_inductance, peak, primary_turns, core_effective_area)
    most = SATURATION[0] if isnan(saturation_flux_density) else saturation_flux_density
    numbers = {"peak_current": peak, "flux_density": reached, "threshold": lowest,
               "saturation_cold": COLD * most}
    if not read and reached * highest / lowest > USUAL:
        return Outcome(CANNOT_TELL, "The controller's current-sense threshold was not recorded. "
                       f"Between {plain(lowest, 'V')} and {plain(highest, 'V')}, the usual ones, "
                       f"the core reaches {plain(reached, 'T')} to "
                       f"{plain(reached * highest / lowest, 'T')}: look the threshold up in the "
                       "data sheet.", numbers)
    outcome, sentence = _judged(reached * highest / lowest, COLD * most)
    return Outcome(outcome, f"With {'' if read else 'at most '}{plain(highest, 'V')} across the "
                            f"sense resistor the core reaches "
                            f"{plain(reached * highest / lowest, 'T')}, {sentence}", numbers)


def _judged(reached, cold):
    usual, most = plain(USUAL, "T"), plain(cold, "T")
    if reached <= USUAL:
        return CONSISTENT, f"within the {usual} that designs keep to."
    if reached <= cold:
        return CANNOT_TELL, (f"between the {usual} that designs keep to and the {most} that power "
                             "ferrite carries cold.")
    return INCONSISTENT, (f"above the {most} that power ferrite carries even cold: in the unit "
                          "examined the core saturates before the limit acts, or one of the "
                          "readings is not right.")
