"""A flyback core passes on, period by period, what its air gap stores, until the ferrite saturates.

Cross-section, inductance a squared turn and frequency say how much that is. The turns themselves
cancel: more of them lower the flux of a given current and raise the inductance.
"""
import numpy as np

from teardowns.engine.mathml import EQ, equation, frac, num, power, row, sym, word
from teardowns.engine.physics.magnetic_core import saturation_power, ungapped_inductance_factor
from teardowns.engine.physics.protection import INPUT_STAGE
from teardowns.engine.rule import Worked, limit

# Of the core's inductance factor without a gap. Gaps of flyback converters leave 0.05 to 0.3 of it
# (cores of the standard sizes, from memory); from here on the core is another converter's, which
# passes its power on at once, or the inductance or the turns are misread. From 0.3 on that grows
# from never to always, so that no line appears at once where a reading moves a little.
STORES, STORES_LITTLE = 0.3, 0.5
ANYTHING = 1000.0           # times the bound: what another converter's core may pass on


def another_converters(core_effective_area, inductance_factor, *others):
    share = inductance_factor / ungapped_inductance_factor(core_effective_area)
    doubt = np.clip((share - STORES) / (STORES_LITTLE - STORES), 0.0, 1.0)
    return doubt, np.full(np.shape(share), ANYTHING)


@limit(
    on="power",
    title="Core saturation",
    model_error=0.05,
    doubt=another_converters,
    # Designs keep to 0.30 of 0.385 T and their current limit to 1.1 to 1.3 of full load, and most
    # keep some current flowing: together half to a third of the bound, and less where the core
    # was chosen for its window. The median of a half-normal of scale 2 is a quarter.
    margin=2.0,
    source="Energy of the primary inductance at saturation, once a period: R. W. Erickson, "
           "D. Maksimovic, Fundamentals of Power Electronics, 2nd ed., ch. 14 (from memory). "
           "0.30 T is the usual ceiling of a design: Infineon DN 2013-01.",
    validity="Flyback converters without a power-factor corrector, inductance measured on the "
             "assembled transformer with the other windings open, or the gap. Not for forward and "
             "resonant half-bridge converters, whose core need not store what it passes on: from "
             "0.3 to 0.5 of the inductance factor that it has without a gap on, a core is taken "
             "less and less for a flyback's, beyond not at all. Of a converter that varies its "
             "frequency the highest counts. Steady state: a cold core carries 20 to 30 % more flux "
             "for a short test.",
    silent="With an active power-factor corrector the transformer need not be a flyback's, and the "
           "core sets no limit. A core with hardly a gap stores little: it is another converter's, "
           "or inductance and turns are misread.",
    formula=equation(
        sym("P"), EQ, frac(sym("η"), num(INPUT_STAGE)),
        frac(row(power(sym("B", "sat"), 2), power(sym("A", "e"), 2), sym("f")),
             row(num(2), sym("A", "L")))),
    symbols={
        "core_effective_area": sym("A", "e"), "inductance_factor": sym("A", "L"),
        "saturation_flux_density": sym("B", "sat"), "switching_frequency": sym("f"),
        "efficiency": sym("η"), "power_factor_corrector": word("corrector"),
    },
    asks={
        "core_effective_area": "Which core does the transformer have? Read its marking, or "
                               "measure its width, height and depth.",
        "inductance_factor": "Primary inductance, the other windings open, and the primary turns "
                             "were not both recorded, nor was the air gap.",
    },
    worked=(
        # (0.3 · 20.1e-6)² · 65e3 · 0.8/(2 · 140e-9) = 6.75; 0.778/0.9725 = 0.8.
        Worked({"core_effective_area": 20.1e-6, "inductance_factor": 140e-9,
                "saturation_flux_density": 0.30, "switching_frequency": 65e3,
                "efficiency": 0.778, "power_factor_corrector": 0.0}, 6.75, 1e-3,
               "Worked by two routes: this formula, and L·I²·f/2 with 100 turns and the current "
               "that brings an EF 16 core to 0.30 T."),
    ),
)
def core_saturation(core_effective_area, inductance_factor, saturation_flux_density,
                    switching_frequency, efficiency, power_factor_corrector):
    drawn = saturation_power(saturation_flux_density, core_effective_area, inductance_factor,
                             switching_frequency)
    stores = inductance_factor <= STORES_LITTLE * ungapped_inductance_factor(core_effective_area)
    return np.where((power_factor_corrector == 0) & stores, drawn * efficiency / INPUT_STAGE,
                    np.nan)
