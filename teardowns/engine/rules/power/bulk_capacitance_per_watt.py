"""Makers give each watt so many microfarads: most for a universal input, fewest at 230 V.

Where the bulk capacitor sets a limit, that limit tells the same fact better and this habit is
silent. It speaks behind an active power-factor corrector, where no limit follows from the
capacitor.
"""
import numpy as np

from teardowns.engine.default_value import HIGH_RANGE
from teardowns.engine.habits import Habit
from teardowns.engine.mathml import TIMES, row, sym
from teardowns.engine.rule import Worked, habit

# Design notes ask 2 to 3 µF a watt for a universal input and 1 µF for 230 V only, cheap universal
# units have 0.7 to 1.5: the middle of 0.7 to 3 in ln is 1.45, its ends lie 0.73 away, 1.6 sd of
# 0.45. A microfarad that never sees less than 220 V, or 380 V behind a corrector, does for 2.5.
PRIOR = Habit("µF", ((1.45, 1.0),), 0.45, row(sym("k"), TIMES, sym("C")))
HIGH_BUS = 2.5


@habit(
    on="power",
    title="Bulk capacitance per watt",
    prior=PRIOR,
    source="2 to 3 µF a watt of output for universal input, 1 µF for 230 V only: Power "
           "Integrations AN-23 (7/99), table 5; 0.7 to 1.5 µF is common in cheap universal units, "
           "0.5 to 1 µF behind a power-factor corrector (both from memory). k = 2.5 for 220 to "
           "240 V only and behind a corrector, else 1.",
    validity="Capacitor-input rectifiers with or without an active power-factor corrector, to "
             "about 150 W. Not for voltage doublers or valley-fill circuits.",
    silent="The bulk capacitor sets a limit: that line tells the same fact better.",
    unless="power/bulk_capacitor",
    formula=PRIOR.formula,
    symbols={"bulk_capacitance": sym("C"), "rated_voltage_low": sym("k"),
             "power_factor_corrector": sym("k")},
    asks={"bulk_capacitance": ""},        # asked by the limit
    worked=(
        Worked({"bulk_capacitance": 14.5e-6, "rated_voltage_low": 100.0,
                "power_factor_corrector": 0.0}, 10.0, 1e-9,
               "1.45 µF a watt, the middle of 0.7 to 3 µF in ln."),
        Worked({"bulk_capacitance": 10e-6, "rated_voltage_low": 220.0,
                "power_factor_corrector": 0.0}, 10 * 2.5 / 1.45, 1e-9,
               "0.58 µF a watt: AN-23's ratio of 2.5 µF to 1 µF for 230 V only."),
    ),
)
def bulk_capacitance_per_watt(bulk_capacitance, rated_voltage_low, power_factor_corrector):
    high_bus = (rated_voltage_low >= HIGH_RANGE) | (power_factor_corrector == 1)
    share = np.where(high_bus, HIGH_BUS, 1.0)
    known = ~np.isnan(rated_voltage_low) & ~np.isnan(power_factor_corrector)
    return np.where(known, 1e6 * bulk_capacitance * share, np.nan)
