"""An efficiency mark states how much of the input power comes out, on average over four loads."""
from math import isnan

from teardowns.engine.mathml import EQ, LEQ, TIMES, equation, frac, num, op, paren, row, sym, word
from teardowns.engine.nameplate import asked_by_mark, largest_power
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

ALLOWED = 0.95         # of what is asked: tolerance of market surveillance, from memory


@check(
    on="unit",
    title="Average efficiency against the efficiency mark",
    source="Level VI: Regulation (EU) 2019/1782, Annex II, and 10 CFR 430.32(w); V: ENERGY STAR "
           "2.0 and AS/NZS 4665.2; IV: 42 U.S.C. 6295(u). Up to 5 % less is within the tolerance "
           "of market surveillance (Regulation (EU) 2019/1782, Annex III, from memory).",
    validity="The mean of the efficiencies at 25, 50, 75 and 100 % of the rated current, at the "
             "end of the output cable if there is one. Where the plate prints several voltages, "
             "the least demanding reading of it counts against the unit.",
    formula=equation(sym("η", "mark"), LEQ, frac(num(1), num(4)),
                     paren(sym("η", "25 %"), op("+"), sym("η", "50 %"), op("+"),
                           sym("η", "75 %"), op("+"), sym("η", "100 %")), op(","),
                     word(" e.g. VI: "), sym("η", "mark"), EQ, num("0.071"),
                     row("<mi>ln</mi>", sym("P")), op("−"), num("0.0014"), TIMES, sym("P"),
                     op("+"), num("0.67")),
    optional=("average_efficiency",),
    symbols={"average_efficiency": sym("η"), "claimed_powers": sym("P")},
)
def efficiency_mark(efficiency_level, average_efficiency, claimed_voltages, claimed_currents,
                    claimed_powers):
    asked = asked_by_mark(efficiency_level, claimed_voltages, claimed_currents, claimed_powers)
    if asked is None or isnan(asked.efficiency[0]):
        return None
    least, most = asked.efficiency
    numbers = {"least": least, "most": most, "claim": largest_power(claimed_powers)}
    wants = f"the mark {asked.mark} asks for {_range(least, most)} of the printed output"
    if isnan(average_efficiency):
        return Outcome(CANNOT_TELL, "The average efficiency was not measured; "
                       f"{wants}.", numbers)
    numbers["measured"] = average_efficiency
    outcome, how = _judged(average_efficiency, least, most)
    return Outcome(outcome, f"In the unit examined the average efficiency is "
                   f"{_percent(average_efficiency)}; {wants}{how}.", numbers)


def _judged(measured, least, most):
    if measured >= most:
        return CONSISTENT, ""
    if measured >= least:
        return CANNOT_TELL, ", by how the plate is read"
    if measured >= ALLOWED * least:
        return CANNOT_TELL, ", and the measurement lies within the tolerance below it"
    return INCONSISTENT, ""


def _range(least, most):
    if least == most:
        return f"at least {_percent(least)}"
    return f"at least {_percent(least)} to {_percent(most)}"


def _percent(share):
    return plain(100 * share, "%")
