"""At its rated current the output still has about the voltage that the plate prints."""
from math import isnan

import numpy as np

from teardowns.engine.mathml import MINUS, TIMES, equation, op, sym
from teardowns.engine.outcome import CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

BAND = 0.1           # of the printed voltage
COLLAPSE = 0.9       # of the printed current


@check(
    on="unit",
    title="Output under load",
    source="Common practice, no source: printed voltage ± 10 % at the printed current.",
    validity="Units with a single printed output and one port. The fall is taken as voltage "
             "without load less source resistance times current.",
    formula=equation(sym("U", "0"), MINUS, sym("R"), TIMES, sym("I"), op("≈"), sym("U")),
    optional=("output_voltage_no_load", "source_resistance", "overcurrent_point"),
    symbols={"output_voltage_no_load": sym("U", "0"), "source_resistance": sym("R")},
)
def output_under_load(claimed_voltages, claimed_currents, output_voltage_no_load,
                      source_resistance, overcurrent_point, port_count):
    if len(claimed_voltages) != 1 or port_count > 1:
        return None
    voltage, current = claimed_voltages[0], claimed_currents[0]
    loaded = output_voltage_no_load - source_resistance * current
    if overcurrent_point < COLLAPSE * current:
        return Outcome(INCONSISTENT, f"The output gave way at {plain(overcurrent_point, 'A')}, "
                                     f"below 90\u202f% of the printed {plain(current, 'A')}.",
                       {"point": overcurrent_point, "current": current})
    if isnan(loaded) or isnan(voltage):
        return None
    said = (f"At {plain(current, 'A')} the output has about {plain(loaded, 'V')}; "
            f"{plain(voltage, 'V')} is printed.")
    within = bool(np.abs(loaded - voltage) <= BAND * voltage)
    return Outcome(CONSISTENT if within else INCONSISTENT, said, {"loaded": loaded})
