"""Voltage times current has to give the power that is printed beside them."""
from math import isnan

from teardowns.engine.mathml import LEQ, MINUS, TIMES, equation, num, op, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

ALLOWED = 0.05       # of the printed power; rounding on plates stays below it


@check(
    title="Printed power against voltage times current",
    source="Plain arithmetic; the 5 % for rounding is common practice, no source.",
    validity="Outputs whose voltage, current and power are all printed. A shared power of "
             "several ports is not the product of one port's voltage and current.",
    formula=equation(op("|"), sym("V"), TIMES, sym("I"), MINUS, sym("P"), op("|"), LEQ,
                     num(ALLOWED), sym("P")),
    symbols={"claim_voltage": sym("V"), "claim_current": sym("I"),
             "claim_printed_power": sym("P")},
)
def plate_arithmetic(claim_voltage, claim_current, claim_printed_power):
    if isnan(claim_printed_power):
        return None
    product = claim_voltage * claim_current
    if isnan(product):
        return Outcome(CANNOT_TELL, "The power is printed without a voltage and a current to "
                       "compare it with.", {"power": claim_printed_power})
    numbers = {"product": product, "power": claim_printed_power}
    said = f"{plain(claim_voltage, 'V')} × {plain(claim_current, 'A')} = {plain(product, 'W')}"
    if abs(product - claim_printed_power) > ALLOWED * claim_printed_power:
        return Outcome(INCONSISTENT, f"{said}, but {plain(claim_printed_power, 'W')} is printed "
                       "beside it.", numbers)
    return Outcome(CONSISTENT, f"{said}, as printed.", numbers)
