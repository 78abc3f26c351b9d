"""The formulas that weigh all lines of evidence alike, with the engine's own constants."""
from typing import NamedTuple

from django.utils.safestring import SafeString, mark_safe

from core.words.said import said
from teardowns.engine.likelihoods import HABIT_TRUST, MISREAD, TAPER, TRUST
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
    paren,
    power,
    row,
    sym,
    word,
)
from teardowns.engine.posterior import ABOVE, BELOW, BEYOND, MET
from teardowns.figures.marks import kind_mark

_D, _S, _SIGMA, _T, _R, _W = (sym(name) for name in ("d", "s", "σ", "t", "R", "w"))
_REST = frac(row(num(1), MINUS, _W), num(4))
_MISREAD = frac(sym("m"), row(num(1), PLUS, num(f"{TAPER:g}"), op("|"), _D, op("|")))


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
        (sym("L"), EQ, _REST, paren(_normal(frac(_D, _SIGMA)), PLUS, _MISREAD), PLUS, _W,
         frac(row(num(2), _SIGMA), _T), _gauss(_T),
         _normal(frac(row(_D, _S), row(_SIGMA, _T))), op(","),
         power(_T, 2), EQ, power(_S, 2), PLUS, power(_SIGMA, 2)),
        "Refutes as far as one reading can, supports mildly: makers choose parts with a margin, of "
        "scale s, above what they aim at, and a share m of the readings is a gross mistake: one "
        "chance for all lines that rest on the same reading.",
    ),
    _likelihood(
        "practice", "mass per watt",
        (sym("L"), EQ, _REST, PLUS, _W, _gauss(_SIGMA)),
        f"At most {1 + 4 * HABIT_TRUST / (1 - HABIT_TRUST):.0f} : 1, for a habit is no law.",
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
KEY = ("{distance}: the line’s value μ against the capability asked about, both as natural "
       "logarithms; {sigma}: standard uncertainty of μ; {phi}: normal distribution function; "
       "{share}, of practice {of_practice}: share of observations that the model describes; "
       "{misread}.")
HYPOTHESES = (
    "A claim of {claim} counts as met when the capability lies between {met} and {above}, and as "
    "not met when it lies between {below} and {met_again}. Within each range every ratio is "
    "equally likely (log-uniform); a share of {beyond} of each lies beyond its range, for a "
    "charger’s lesser claims lie far below what it can do. A voltage counts as met from 0.95 to "
    "1.1 of the claim or at a higher level of the same port. A load lost above the claim is an "
    "ordinary overload trip: what counts is whether a unit with 0.95 to 1.1 of the claim would "
    "have lost it. Before any evidence the two are equally likely: the plausibility {p} begins at "
    "0.5.")
_C = sym("C")


def likelihood_key() -> SafeString:
    """What the signs of the likelihoods stand for, in the reader's language."""
    return mark_safe(said(KEY).format(
        distance=inline(row(_D, EQ, sym("μ"), MINUS, sym("x"))), sigma=inline(_SIGMA),
        phi=inline(sym("Φ")), share=inline(row(_W, EQ, num(f"{TRUST:g}"))),
        of_practice=inline(num(f"{HABIT_TRUST:g}")),
        misread=inline(row(sym("m"), EQ, num(f"{MISREAD:g}")))))


def hypotheses() -> SafeString:
    """What counts as met and as not met, in the reader's language."""
    met = inline(row(num(f"{MET:g}"), _C))
    return mark_safe(said(HYPOTHESES).format(
        claim=inline(_C), met=met, met_again=met, above=inline(row(num(f"{ABOVE:g}"), _C)),
        below=inline(row(_C, op("/"), num(f"{BELOW:g}"))), beyond=said(f"{BEYOND:g}"),
        p=inline(sym("p"))))


ODDS = mark_safe(equation(
    frac(sym("p"), row(num(1), MINUS, sym("p"))), EQ,
    frac(fn("mean", op("∏"), sym("L"), op("|"), word("met")),
         fn("mean", op("∏"), sym("L"), op("|"), word("not met"))),
))
DECIBANS = mark_safe(equation(
    num(10), TIMES, f"<msub><mi>log</mi>{num(10)}</msub>",
    frac(word("odds with all lines"), word("odds without this line")),
))
