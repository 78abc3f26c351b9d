"""The formulas that weigh all lines of evidence alike, with the engine's own constants."""
from typing import NamedTuple

from django.utils.safestring import SafeString, mark_safe

from teardowns.engine.likelihoods import TRUST
from teardowns.engine.mathml import (
    EQ,
    MINUS,
    PLUS,
    TIMES,
    equation,
    fn,
    frac,
    inline,
    num,
    op,
    power,
    row,
    sym,
    word,
)
from teardowns.engine.posterior import ABOVE, BELOW, BEYOND, MET
from teardowns.figures.marks import kind_mark

_D, _S, _SIGMA, _T, _R, _W = (sym(name) for name in ("d", "s", "σ", "t", "R", "w"))
_REST = frac(row(num(1), MINUS, _W), num(4))


def _normal(argument: str) -> str:
    return fn("Φ", argument)


def _gauss(width: str) -> str:
    square = frac(power(_D, 2), row(num(2), power(width, 2)))
    return f"<msup><mi>e</mi>{row(op('−'), square)}</msup>"


class Likelihood(NamedTuple):
    name: str
    mark: SafeString
    example: str
    formula: SafeString
    reach: str              # how far one such line can push


def _likelihood(kind, example, formula, reach):
    mark = mark_safe(kind_mark(kind, kind))
    return Likelihood(kind, mark, example, mark_safe(equation(*formula)), reach)


LIKELIHOODS = (
    _likelihood(
        "limit", "energy that the bulk capacitor holds from one mains peak to the next",
        (sym("L"), EQ, _REST, _normal(frac(_D, _SIGMA)), PLUS, _W,
         frac(row(num(2), _SIGMA), _T), _gauss(_T),
         _normal(frac(row(_D, _S), row(_SIGMA, _T))), op(","),
         power(_T, 2), EQ, power(_S, 2), PLUS, power(_SIGMA, 2)),
        "Refutes without bound, supports mildly: makers choose parts with a margin, of scale s, "
        "above what they aim at.",
    ),
    _likelihood(
        "practice", "mass per watt",
        (sym("L"), EQ, _REST, PLUS, _W, _gauss(_SIGMA)),
        f"At most {1 + 4 * TRUST / (1 - TRUST):.0f} : 1, for a habit is no law.",
    ),
    _likelihood("passed", "held 12 W in regulation for half an hour",
                (sym("L"), EQ, _normal(row(op("−"), frac(_D, _SIGMA)))),
                "Decides within its own conditions."),
    _likelihood("failed", "left regulation at 17 W",
                (sym("L"), EQ, _normal(frac(_D, _SIGMA))),
                "Decides within its own conditions."),
    _likelihood("switch", "no path by which the output voltage could be changed",
                (frac(fn("L", word("above")), fn("L", word("below"))), EQ, _R),
                "As far as the parts that were seen, and those looked for and not found, tell "
                "arrangements apart."),
)
LIKELIHOOD_KEY = mark_safe(
    f"{inline(row(_D, EQ, sym('μ'), MINUS, sym('x')))}: the line’s value μ against the capability "
    f"asked about, both as natural logarithms; {inline(_SIGMA)}: standard uncertainty of μ; "
    f"{inline(sym('Φ'))}: normal distribution function; "
    f"{inline(row(_W, EQ, num(f'{TRUST:g}')))}: share of observations that the model describes."
)
_C = sym("C")
HYPOTHESES = mark_safe(
    f"A claim of {inline(_C)} counts as met when the capability lies between "
    f"{inline(row(num(f'{MET:g}'), _C))} and {inline(row(num(f'{ABOVE:g}'), _C))}, and as not met "
    f"when it lies between {inline(row(_C, op('/'), num(f'{BELOW:g}')))} and "
    f"{inline(row(num(f'{MET:g}'), _C))}. Within each range every ratio is equally likely "
    f"(log-uniform); a share of {BEYOND:g} of each lies beyond its range, for a charger’s lesser "
    "claims lie far below what it can do. A voltage counts as met from 0.95 to 1.1 of the claim "
    "or at a higher level of the same port. A load lost above the claim is an ordinary overload "
    "trip: what counts is whether a unit with 0.95 to 1.1 of the claim would have lost it. "
    "Before any evidence the two are equally likely: the plausibility "
    f"{inline(sym('p'))} begins at 0.5."
)
ODDS = mark_safe(equation(
    frac(sym("p"), row(num(1), MINUS, sym("p"))), EQ,
    frac(fn("mean", op("∏"), sym("L"), op("|"), word("met")),
         fn("mean", op("∏"), sym("L"), op("|"), word("not met"))),
))
DECIBANS = mark_safe(equation(
    num(10), TIMES, f"<msub><mi>log</mi>{num(10)}</msub>",
    frac(word("odds with all lines"), word("odds without this line")),
))
