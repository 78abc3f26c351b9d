"""The one place where a result about safety is put into words.

About the unit examined, what was recorded and which figure it stands beside: never about other
units, intent, a maker or the law.
"""
from collections.abc import Sequence
from math import floor, isnan, log10

from .grading import CANNOT_TELL, FALLS_SHORT, GRADES, MEETS
from .rule import Rule
from .scenarios import is_if_moved
from .wording import NARROW, plain, sentence_case

# SI unit → from which value on, how many of the shown unit it makes, and that unit.
SHOWN = {
    "m": ((0.0, 1e3, "mm"),),
    "A": ((1.0, 1.0, "A"), (0.0, 1e3, "mA")),
    "F": ((1e-6, 1e6, "µF"), (1e-9, 1e9, "nF"), (0.0, 1e12, "pF")),
    "Ω": ((1e6, 1e-6, "MΩ"), (1e3, 1e-3, "kΩ"), (0.0, 1.0, "Ω")),
}
HURTS = ("shock", "fire", "burn")      # hazards that the answer is about
NAMED = 2          # results that a summary names
MEETS_WORDS = "It meets the tabulated figure."
LEAST_SHOWN = 0.01      # of the shown unit; less is no news to anybody
FLAG = ("It lies beyond a figure that this rulebook knows from memory alone: a flag for a "
        "reviewer, no finding.")
CONFIDENCE_WORDS = {"A": "two published sources agree on the figure",
                    "B": "one published source was read for the figure",
                    "C": "the figure is from memory"}
# What has to be known of every unit: in words, and by rule and barrier.
EVERY_UNIT = (
    ("the clearance from the mains side to the output", {("safety/clearance", "PRI_SEC")}),
    ("the creepage from the mains side to the output", {("safety/creepage", "PRI_SEC")}),
    ("the layers between the windings", {("safety/winding_layers", "")}),
    ("the way from the mains side to the outside of the case",
     {("safety/clearance", "PRI_ENC"), ("safety/creepage", "PRI_ENC")}),
)
UNMEASURED = ("No distance and no layer between the mains and a hand was recorded in the unit "
              "examined: whether its insulation keeps them apart, this page cannot tell.")
UNDECIDED = ("What was recorded does not decide whether the unit examined keeps the mains away "
             "from a hand: this page cannot tell.")
AT_ODDS = "It was seen one way and the other: the evidence does not decide it."
# What would settle a grade that cannot be told.
HINT_READING = "A reading with a smaller uncertainty."
HINT_ASSUMED = "A reading of what is assumed here, for the requirement depends on it."
HINT_MISSING = "Not recorded: {}."
# Beside every result, wherever it is printed.
DEFERRAL = (
    "This page records what one person found in one unit. It is not a safety certificate, an "
    "approval, or advice to use, repair or open a product. Electrical work and tests on "
    "mains-powered equipment are regulated differently from country to country: follow the local "
    "wiring and product-safety rules and leave energised work to people qualified and, where "
    "required, licensed for it. If a product has shocked someone, smoked or become too hot to "
    "hold, stop using it and tell the seller and your market-surveillance authority."
)
ALL_OPEN = "That is an open question and no pass."
NONE_OPEN = "No question that this rulebook asks stays open; it does not ask everything."


def amount(value: float, unit: str) -> str:
    """ "2.54 mm", "0.25 mA" """
    factor, shown = _scale(value, unit)
    return plain(value * factor, shown)


def reading(value: float, u: float, unit: str) -> str:
    """ "1.8 ± 0.1 mm", rounded to the uncertainty """
    if isnan(u) or u <= 0:
        return amount(value, unit)
    factor, shown = _scale(value, unit)
    if value >= 0 and (value + u) * factor < LEAST_SHOWN:
        return f"less than {plain(LEAST_SHOWN, shown)}"
    kept = 2 if f"{u * factor:.1e}"[0] == "1" else 1          # JCGM 100:2008, 7.2.6
    places = max(kept - 1 - floor(log10(u * factor)), 0)
    text = f"{value * factor:.{places}f}{NARROW}±{NARROW}{u * factor:.{places}f}"
    return text if shown == "1" else f"{text}{NARROW}{shown}"


def required(low: float, high: float, unit: str) -> str:
    """ "3 mm", or "5 mm to 5.8 mm, by what is assumed" """
    if isnan(low) or isnan(high):
        return amount(high if isnan(low) else low, unit)
    if abs(high - low) <= 1e-9 * abs(high):
        return amount(high, unit)
    return f"{amount(low, unit)} to {amount(high, unit)}, by what is assumed"


def _scale(value, unit):
    for least, factor, shown in SHOWN.get(unit, ()):
        if abs(value) >= least:
            return factor, shown
    return 1.0, unit


def sentence(rule: Rule, subject: str, grade: int, flagged: bool, value: float, u: float,
             low: float, high: float, why: int) -> str:
    """What one rule says of one subject.

    grade : the grade as it may be said (`Graded.worded`)
    """
    said = [_recorded(rule, subject, value, u, low, high), rule.reasons[why]]
    if not rule.reasons[why]:
        said.append(_compared(rule, grade, value, low))
    if flagged:
        said.append(FLAG)
    return " ".join(filter(None, said))


def _recorded(rule, subject, value, u, low, high):
    if isnan(value):
        return ""
    kind = "highest allowed value" if rule.largest else "tabulated figure"
    figure = f"; the {kind} is {required(low, high, rule.measure)}" if not (
        isnan(low) and isnan(high)) else ""
    return (f"In the unit examined, the {named(rule.title, subject)} comes to "
            f"{reading(value, u, rule.measure)}{figure}.")


def _compared(rule, grade, value, low):
    if grade == MEETS:
        return MEETS_WORDS
    if grade == FALLS_SHORT:
        side = "above" if rule.largest else "below"
        return f"It lies {side} the tabulated figure under every documented assumption."
    if isnan(value):
        return f"{sentence_case(rule.title)}: not recorded. The evidence does not decide it."
    if isnan(low):
        return "No figure applies as far as it is known."
    return ("The evidence does not decide whether it meets that figure: it depends on the "
            "uncertainty or on what is assumed.")


def named(title: str, subject: str) -> str:
    """ "clearance (slot under the optocoupler)" """
    return f"{_lower(title)} ({_lower(subject)})" if subject else _lower(title)


def _lower(title):
    """The first letter small, unless it begins a name or a symbol: "X capacitor", "C4"."""
    return title[:1].lower() + title[1:] if title[1:2].islower() else title


def summary(results: Sequence[dict]) -> tuple[str, str]:
    """The answer in two sentences: what was found of all that can hurt, and what stays open."""
    points = [one for one in results if one["hazard"] in HURTS]
    missing = unrecorded(results)
    found = _found(points, missing)
    return found, _open(points, [] if found == UNMEASURED else missing, found)


def unrecorded(results: Sequence[dict]) -> list[str]:
    """Which of the ways that matter in every unit nobody measured."""
    known = {(one["rule"], one["barrier"]) for one in results
             if one["value"] is not None or one["grade"] != GRADES[CANNOT_TELL]}
    return [words for words, ways in EVERY_UNIT if not known & ways]


def _found(points, missing):
    short = sorted(_graded(points, FALLS_SHORT), key=_how_bad)
    decided = len(short) + len(_graded(points, MEETS))
    if not short and len(missing) == len(EVERY_UNIT):
        return UNMEASURED       # whatever else meets its figure, the insulation is not known of
    if not decided:
        return UNDECIDED
    if not short:
        return ("In the unit examined nothing that the evidence decides falls short: "
                f"{_counted(decided, 'point meets its', 'points meet their')} tabulated figure.")
    which = "falls short of its" if len(short) == 1 else "fall short of their"
    more = f", and {len(short) - NAMED} more" if len(short) > NAMED else ""
    count = "the only point" if decided == 1 else f"{len(short)} of the {decided} points"
    return (f"In the unit examined {count} that the evidence decides {which} tabulated figure: "
            f"{'; '.join(_beside(one) for one in short[:NAMED])}{more}.")


def _open(points, missing, found):
    undecided = _graded(points, CANNOT_TELL)
    if not undecided and found == UNMEASURED:
        return ALL_OPEN
    nothing = f"nothing was recorded of {_listed(missing)}" if missing else ""
    if not undecided:
        return f"{sentence_case(nothing)}, which is no pass." if missing else NONE_OPEN
    flagged = sum(one["flagged"] for one in undecided)
    waits = (f"; {flagged} of them {'lies' if flagged == 1 else 'lie'} beyond a figure known from "
             f"memory alone and {'waits' if flagged == 1 else 'wait'} for a reviewer"
             if flagged else "")
    stay = _counted(len(undecided), "question stays open", "questions stay open")
    return (f"{sentence_case(stay)}, which is no pass{waits}{'; ' if missing else ''}{nothing}.")


def _listed(words):
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]


def _graded(points, grade):
    return [one for one in points if one["grade"] == GRADES[grade]]


def _how_bad(one):
    """What misses its figure by most stands first; what has no figure before all, and behind all
    what would only be so if a part moved."""
    ratio = one["ratio"]
    return is_if_moved(one), (
        -1.0 if ratio is None else 1 / ratio if one["largest"] and ratio else ratio)


def _beside(one):
    """ "the clearance (board), 1.8 ± 0.1 mm where 3 mm is tabulated" """
    name = f"the {named(one['title'], one['subject'])}"
    if one["value"] is None or not _misses(one):
        return name         # it falls short for another reason than its number
    value = reading(one["value"], _known(one["u"]), one["unit"])
    ends = [end for end in (one["low"], one["high"]) if end is not None]
    if not ends:
        return f"{name}, {value}"
    figure = required(_known(one["low"]), _known(one["high"]), one["unit"])
    said = "is the most" if one["largest"] else "is tabulated"
    moved = ", if a part moved" if is_if_moved(one) else ""
    return f"{name}, {value} where {figure.partition(',')[0]} {said}{moved}"


def _misses(one):
    if one["largest"]:
        return one["high"] is None or one["value"] > one["high"]
    return one["low"] is None or one["value"] < one["low"]


def _known(value):
    return float("nan") if value is None else value


def _counted(count, one, several):
    return f"{count} {one if count == 1 else several}"
