"""An efficiency mark also states how little a charger draws with nothing connected."""
from math import isnan

from teardowns.engine.mathml import LEQ, equation, sym
from teardowns.engine.nameplate import asked_by_mark, largest_power
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

# W: 0.01 W is the tolerance of market surveillance, and 0.02 W the uncertainty that IEC 62301
# asks of the meter, doubled for meters on a bench; from memory.
ALLOWED = 0.05


@check(
    on="unit",
    title="Input without load against the efficiency mark",
    source="Level VI: Regulation (EU) 2019/1782, Annex II, and 10 CFR 430.32(w); V: ENERGY STAR "
           "2.0 and AS/NZS 4665.2; IV: 42 U.S.C. 6295(u). Up to 0.05 W more counts as within the "
           "measurement (IEC 62301 asks for 0.02 W; from memory).",
    validity="A wattmeter that resolves hundredths of a watt; plug-in energy meters often do not. "
             "Where the plate prints several voltages, the least demanding reading of it counts "
             "against the unit.",
    formula=equation(sym("P", "0"), LEQ, sym("P", "mark")),
    optional=("no_load_power", "no_load_power_at_most"),
    symbols={"no_load_power": sym("P", "0")},
)
def no_load_mark(efficiency_level, no_load_power, no_load_power_at_most, claimed_voltages,
                 claimed_currents, claimed_powers):
    asked = asked_by_mark(efficiency_level, claimed_voltages, claimed_currents, claimed_powers)
    if asked is None or isnan(asked.no_load[0]):
        return None
    loose, strict = asked.no_load
    numbers = {"largest": loose, "smallest": strict, "claim": largest_power(claimed_powers)}
    span = plain(strict, "W") + ("" if loose == strict else f" to {plain(loose, 'W')}")
    wants = f"the mark {asked.mark} allows {span} for the printed output"
    if isnan(no_load_power) and no_load_power_at_most <= strict:
        numbers["measured"] = no_load_power_at_most
        return Outcome(CONSISTENT, "Without load the unit examined draws "
                       f"{plain(no_load_power_at_most, 'W')} at most; {wants}.", numbers)
    if isnan(no_load_power):
        return Outcome(CANNOT_TELL, f"The input without load was not measured; {wants}.", numbers)
    numbers["measured"] = no_load_power
    outcome, how = _judged(no_load_power, loose, strict)
    return Outcome(outcome, f"Without load the unit examined draws {plain(no_load_power, 'W')}; "
                   f"{wants}{how}.", numbers)


def _judged(measured, loose, strict):
    if measured <= strict:
        return CONSISTENT, ""
    if measured <= loose:
        return CANNOT_TELL, ", by how the plate is read"
    if measured <= loose + ALLOWED:
        return CANNOT_TELL, ", and few meters tell such small powers apart"
    return INCONSISTENT, ""
