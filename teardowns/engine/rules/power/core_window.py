"""A core carries flux through its cross-section and copper through its window.

Their product bounds the power of any winding that could be put on it, however it was wound.
"""
import numpy as np

from teardowns.engine.mathml import (
    EQ,
    PLUS,
    TIMES,
    equation,
    frac,
    num,
    op,
    power,
    row,
    sym,
    word,
)
from teardowns.engine.physics.flyback import duty_cycle
from teardowns.engine.physics.magnetic_core import area_product_power
from teardowns.engine.physics.protection import INPUT_STAGE
from teardowns.engine.rule import Worked, limit

# The most that can be had; usual are 4 to 9 A/mm², 0.15 to 0.35, 0.45 and 0.5.
DENSITY = 10e6           # A/m², rms, in the primary
FILL = 0.35              # copper over the winding space
PRIMARY = 0.5            # the primary's share of it
BOBBIN = 0.6             # the bobbin's winding space over the core's window

_PEAK = row(f"<msqrt>{num(2)}</msqrt>", sym("V"))


@limit(
    on="power",
    title="Core size",
    model_error=0.20,
    # Usual practice, 0.30 of 0.385 T, 6 A/mm², fill 0.25, share 0.45 and half the window, carries
    # a quarter of the bound, −1.4 in ln, and small cores far less, for tape and margins take their
    # window: the line refutes and hardly supports.
    margin=3.5,
    source="Area product: ampere-turns that the window holds times the flux of the cross-section. "
           "Hard values 10 A/mm², fill 0.35, primary share 0.5 and 0.6 of the window, from memory; "
           "4 to 10 A/mm² is usual: Power Integrations AN-22 (5/98), p. 8. The bobbin of an "
           "EFD 15/8/5 leaves 15.8 of 31.3 mm²: EPCOS B66413 and B66414.",
    validity="Wound flyback transformers with natural cooling and without a power-factor "
             "corrector; not for planar windings. Discontinuous conduction, which carries most.",
    silent="With an active power-factor corrector the transformer need not be a flyback's, and its "
           "size sets no limit.",
    formula=equation(
        sym("P"), EQ, frac(sym("η"), num(INPUT_STAGE)), TIMES,
        frac(row(sym("B", "sat"), sym("f"), sym("J"), sym("K", "u"), sym("a", "p"), sym("A", "e"),
                 num(BOBBIN), sym("A", "w")),
             row(num(2), f"<msqrt>{row(sym('D'), op('/'), num(3))}</msqrt>")),
        op(","), sym("D"), EQ, frac(sym("V", "OR"), row(sym("V", "OR"), PLUS, _PEAK)),
        op(","), sym("J"), EQ, num(10), word(" A/"), power(word("mm"), 2),
        op(","), sym("K", "u"), EQ, num(FILL), op(","), sym("a", "p"), EQ, num(PRIMARY)),
    symbols={
        "core_effective_area": sym("A", "e"), "core_window_area": sym("A", "w"),
        "saturation_flux_density": sym("B", "sat"), "switching_frequency": sym("f"),
        "reflected_voltage": sym("V", "OR"), "efficiency": sym("η"), "mains_voltage": sym("V"),
        "power_factor_corrector": word("corrector"),
    },
    worked=(
        # 115.7 V beside a peak of 141.4 V: D = 0.45, as in the comparison. Half of the window
        # gives 8.44 W, 0.6 of it 10.1 W.
        Worked({"core_effective_area": 14.4e-6, "core_window_area": 17.3e-6,
                "saturation_flux_density": 0.30, "switching_frequency": 100e3,
                "reflected_voltage": 115.7, "efficiency": 0.9725, "mains_voltage": 100.0,
                "power_factor_corrector": 0.0}, 8.8, 0.20,
               "TDK switching-supply catalogue, EI 12.5: 8.8 W at 100 kHz, in forward mode, so "
               "that the order of magnitude is compared."),
    ),
)
def core_window(core_effective_area, core_window_area, saturation_flux_density,
                switching_frequency, reflected_voltage, efficiency, mains_voltage,
                power_factor_corrector):
    duty = duty_cycle(reflected_voltage, np.sqrt(2.0) * mains_voltage, 0.0)
    drawn = area_product_power(saturation_flux_density, core_effective_area,
                               BOBBIN * core_window_area, DENSITY, FILL, PRIMARY, duty,
                               switching_frequency)
    return np.where(power_factor_corrector == 0, drawn * efficiency / INPUT_STAGE, np.nan)
