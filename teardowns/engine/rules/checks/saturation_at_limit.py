"""A current limit protects the core only if it acts before the core saturates.

Inductance, turns, cross-section and sense resistor together say what flux the limit allows.
"""
from math import isnan

from teardowns.engine.default_values.flyback import LOWEST_THRESHOLD, SATURATION
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
             "read, the lowest usual one is taken, 0.5 V.",
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
    threshold = _read_or(LOWEST_THRESHOLD, current_sense_threshold)
    peak = threshold / current_sense_resistance
    reached = flux_density(primary_inductance, peak, primary_turns, core_effective_area)
    cold = COLD * _read_or(SATURATION[0], saturation_flux_density)
    numbers = {"peak_current": peak, "flux_density": reached, "threshold": threshold,
               "saturation_cold": cold}
    outcome, sentence = _judged(reached, cold)
    return Outcome(outcome, f"With {plain(threshold, 'V')} across the sense resistor, a peak of "
                            f"{plain(peak, 'A')}, the core reaches {plain(reached, 'T')}, "
                            f"{sentence}", numbers)


def _read_or(usual, value):
    return usual if isnan(value) else value


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
