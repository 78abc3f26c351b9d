"""A charger at its full load draws no more current than its plate allows."""
from math import isnan, nan

from teardowns.engine.mathml import LEQ, equation, num, sym
from teardowns.engine.nameplate import largest_power
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

ALLOWED = 1.10           # of the rated current
SAME_LOAD = 0.05         # how far the load may lie from the claim and still count as it


@check(
    on="unit",
    title="Measured input current against the rated one",
    source="At most 10 % above the rated current: IEC 62368-1, B.2.5 (from memory).",
    validity="Measured at a rated voltage. The rated current belongs to the lowest rated voltage: "
             "at a higher one the same load draws less, so that agreement there says little. "
             "With a load above the claim more current is no contradiction.",
    formula=equation(sym("I", "in"), LEQ, num(f"{ALLOWED:.2f}"), sym("I", "rated")),
    optional=("sustained_power",),
    symbols={"input_current_full_load": sym("I", "in"), "rated_input_current": sym("I", "rated"),
             "sustained_power": sym("P")},
)
def input_current(input_current_full_load, rated_input_current, sustained_power, claimed_powers):
    if isnan(input_current_full_load) or isnan(rated_input_current) or rated_input_current <= 0:
        return None
    claim = largest_power(claimed_powers)
    share = sustained_power / claim if claim > 0 else nan
    numbers = {"measured": input_current_full_load, "rated": rated_input_current,
               "load": sustained_power, "claim": claim}
    said = (f"The unit examined drew {plain(input_current_full_load, 'A')} at full load; the plate "
            f"prints {plain(rated_input_current, 'A')}")
    outcome, more = _judged(input_current_full_load / (ALLOWED * rated_input_current), share)
    return Outcome(outcome, f"{said}{more}", numbers)


def _judged(excess, share):
    """excess : of the allowed current; share : load over claim, NaN where one is not known"""
    if excess <= 1:
        if share < 1 - SAME_LOAD:
            return CANNOT_TELL, ". That was at less than the claimed power."
        return CONSISTENT, ", and 10 % more are allowed. At a lower mains voltage it draws more."
    if isnan(share):
        return CANNOT_TELL, ". More than 10 % above it, but at which load was not recorded."
    if share <= 1 + SAME_LOAD:
        return INCONSISTENT, ". That is more than 10 % above it, at no more than the claimed power."
    return CANNOT_TELL, ". More than 10 % above it, but with a load above the claimed power."
