"""A case too small for the loss at the claimed power needs more than the efficiency mark asks.

Even at the mark's efficiency some of the input becomes heat. Either the case sheds it, or the
unit is better than its mark says, or it does not deliver the claimed power for long.
"""
from math import isnan

from teardowns.engine.mathml import EQ, LEQ, MINUS, equation, frac, num, op, paren, row, sym
from teardowns.engine.nameplate import asked_by_mark, largest_power
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.physics.enclosure import best_case_heat
from teardowns.engine.rule import check
from teardowns.engine.wording import plain

TOUCHABLE, HARD = 77.0, 105.0      # °C of the whole surface
MODEL = 1.30             # two standard uncertainties of the heat of a box
BEST = 0.96              # efficiency of the best small chargers at full load, from memory


@check(
    on="unit",
    title="Loss at the claimed power against the case",
    source="Natural convection and radiation (Incropera et al., chapter 9), ± 15 %; efficiency by "
           "Regulation (EU) 2019/1782, Annex II, and the older tables of the marks. 77 °C for "
           "plastic touched shortly: IEC 62368-1, table 38; 105 °C: parts inside at their limit.",
    validity="Closed convex cases in still air, without a fan; all faces free. A mark asks for a "
             "least efficiency: a unit may do better.",
    formula=equation(sym("P"), paren(frac(num(1), sym("η", "mark")), MINUS, num(1)), LEQ,
                     row(sym("Q"), paren(sym("T", "s"))), op(","), sym("η", "needed"), EQ,
                     frac(sym("P"), row(sym("P"), op("+"), sym("Q")))),
    symbols={"claimed_powers": sym("P")},
)
def heat_at_claim(efficiency_level, case_height, case_width, case_depth, claimed_voltages,
                  claimed_currents, claimed_powers):
    asked = asked_by_mark(efficiency_level, claimed_voltages, claimed_currents, claimed_powers)
    box = (case_height, case_width, case_depth)
    if asked is None or isnan(asked.efficiency[0]) or not all(side > 0 for side in box):
        return None
    touchable, hard = (float(best_case_heat(*box, at)) for at in (TOUCHABLE, HARD))
    claim = largest_power(claimed_powers)
    loss = claim * (1 / asked.efficiency[1] - 1)
    needed = claim / (claim + MODEL * hard)
    numbers = {"loss": loss, "touchable": touchable, "hard": hard, "needed_efficiency": needed,
               "claim": claim}
    outcome, sentence = _judged(loss, touchable, hard, needed)
    said = (f"At {plain(claim, 'W')} and the efficiency that the mark {asked.mark} asks for, "
            f"{plain(loss, 'W', 2)} become heat; a case of this size sheds "
            f"{plain(touchable, 'W', 2)} at {TOUCHABLE:.0f} °C and {plain(hard, 'W', 2)} at "
            f"{HARD:.0f} °C")
    return Outcome(outcome, f"{said}. {sentence}", numbers)


def _judged(loss, touchable, hard, needed):
    if loss <= touchable:
        return CONSISTENT, "The case is large enough for it."
    if loss <= hard:
        return CANNOT_TELL, ("The claim held for hours takes a case too hot to touch, or a better "
                             "efficiency than the mark asks for.")
    least = plain(100 * needed, "%")
    if needed <= BEST:
        return CANNOT_TELL, (f"The claim held for hours takes an efficiency of {least} at least, "
                             "whatever the mark asks for.")
    return INCONSISTENT, (f"The claim held for hours would take an efficiency of {least} at least, "
                          "more than small chargers have.")
