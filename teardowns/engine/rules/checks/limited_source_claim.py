"""A unit that calls itself a limited source prints an output that such a source could have."""
from math import isnan

from teardowns.engine.mathml import equation, op, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.requirements.energy_sources import limited_current, limited_power
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

HIGHEST = 60.0       # V, of both tables


@check(
    on="unit",
    title="Limited source and printed output",
    source="IEC 60950-1, 2.5, tables 2B and 2C; IEC 62368-1:2018, annex Q; three published pages.",
    validity="Where the mark was read. The looser of both tables, since what limits the output is "
             "not known; measured currents are graded apart.",
    formula=equation(sym("S"), op("≤"), sym("S", "max")),
)
def limited_source_claim(claims_limited_source, claimed_output_voltage, claimed_output_current,
                         claimed_output_power):
    if claims_limited_source != 1 or isnan(claimed_output_voltage):
        return None
    if isnan(claimed_output_current) and isnan(claimed_output_power):
        return Outcome(CANNOT_TELL, "Neither a current nor a power of the output was read.")
    watts, amps = (float(of(claimed_output_voltage, True))
                   for of in (limited_power, limited_current))
    numbers = {"power": claimed_output_power, "most": watts}
    if isnan(watts):
        return Outcome(INCONSISTENT, "The printed voltage is more than a limited source may have "
                                     f"({plain(HIGHEST, 'V')}).", numbers)
    if claimed_output_power > watts or claimed_output_current > amps:
        return Outcome(INCONSISTENT, "The printed output is more than a limited source may give "
                                     f"({plain(watts, 'W')} at this voltage).", numbers)
    return Outcome(CONSISTENT, "The printed output is one that a limited source may have.", numbers)
