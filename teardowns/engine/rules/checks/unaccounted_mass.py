"""The parts that were weighed should add up to the unit that was weighed.

What is missing is a question, not a finding: a part that nobody weighed, potting, or a part
without function.
"""
from math import isnan, sqrt

from teardowns.engine.mathml import LEQ, MINUS, equation, num, op, row, sym
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.rule import check
from teardowns.engine.wording import shown

# A scale that shows grams, tared for each of a dozen parts; common practice, no source. A check
# reads no uncertainties; with a finer scale this errs on the side of saying nothing.
RESOLUTION, PARTS = 1e-3, 12
U = sqrt(2 * (PARTS + 1)) * RESOLUTION / sqrt(12)
SHARE = 0.05             # of the unit: glue, solder and wire that nobody weighs


@check(
    on="unit",
    title="Mass of the parts against the mass of the unit",
    source="Sum of the masses; uncertainty of a reading by the resolution of the scale q, q/√12, "
           "and once more for the tare (JCGM 100:2008, F.2.2.1). Threshold 3 u and 5 % of the "
           "unit: common practice, no source.",
    validity="Units weighed whole, without cable, and in parts, with a scale that shows grams or "
             "better. Missing mass alone is no sign of ballast: that takes a part with neither "
             "an electrical connection nor a heat path.",
    formula=equation(op("|"), sym("m"), MINUS, sym("m", "parts"), op("|"), LEQ,
                     row("<mi>max</mi>", op("("), num(3), sym("u"), op(","), num(SHARE),
                         sym("m"), op(")"))),
    symbols={"mass_total": sym("m"), "mass_accounted": sym("m", "parts")},
)
def unaccounted_mass(mass_total, mass_accounted, mass_ballast):
    if isnan(mass_total) or isnan(mass_accounted):
        return None
    gap, threshold = mass_total - mass_accounted, max(3 * U, SHARE * mass_total)
    numbers = {"gap": gap, "threshold": threshold, "total": mass_total,
               "accounted": mass_accounted}
    weighed = (f"{shown('mass_accounted', mass_accounted)} of "
               f"{shown('mass_total', mass_total)} were weighed as parts")
    if gap > threshold:
        return Outcome(CANNOT_TELL, f"{weighed}: {shown('mass_total', gap)} of the unit examined "
                       f"are not accounted for. {_next(mass_ballast)}", numbers)
    if gap < -threshold:
        return Outcome(INCONSISTENT, f"{weighed}: more than the unit itself. One of the readings "
                       "includes something else, such as a cable.", numbers)
    return Outcome(CONSISTENT, f"{weighed}; the rest is within what weighing leaves open.",
                   numbers)


def _next(ballast):
    if ballast > 0:
        return "Beside the part without function that was found, other parts are left to weigh."
    return "Weigh the parts that are left, and see whether one of them has no function."
