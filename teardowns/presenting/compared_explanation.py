"""What explains the difference between units: sentences made from their numbers, and nothing else.

It says what goes along with what in the units examined. It knows no causes and no intent.
"""
from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import log

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.engine.risk import ORDER
from teardowns.engine.verdicts import WEAK
from teardowns.reading.printing import print_quantity

from .compare_numbers import square_millimetres
from .compared_facts import Facts, Known
from .list_words import and_between
from .numbers import claimed_watts, decibans, number, span, with_unit

NAMED = 3               # facts that the paragraph goes into
ALIKE = 1.1             # values whose ratio stays below this are called about the same
UNSOUND = {"evidence contradicts itself": "contradicts itself",
           "no evidence": "does not weigh on its claim"}
AGREED = "Whether two reviewers agreed on a serious one stands under Findings."
CANNOT_TELL = "What explains the difference, the evidence cannot tell: "
CAUTION = ("This compares the units examined, not all of their kind; what goes along with the "
           "capability need not be its cause, and some of these facts are among the evidence "
           "that the capability is computed from.")


@dataclass(frozen=True, slots=True)
class Quality:
    """A fact that may go along with the capability."""

    name: str
    of: Callable[[Facts], Known]
    text: Callable[[float], str]


def _quantity(unit, digits=3):
    return lambda value: print_quantity(value, unit, digits=digits)


QUALITIES = (
    Quality("bulk capacitance", lambda one: one.bulk_capacitance, _quantity("F")),
    Quality("mass without ballast", lambda one: one.working_mass, _quantity("kg")),
    Quality("core cross-section", lambda one: one.core_area, square_millimetres),
    Quality("copper of the output winding", lambda one: one.copper, square_millimetres),
)


def explanation(units: Sequence[Facts]) -> list[str]:
    """The sentences of the paragraph. units : at least two, in the order of the page"""
    known = [one for one in units if one.capability and one.verdict not in UNSOUND]
    waits = AGREED if any(one.risk == "serious" for one in units) else ""
    said = [_risks(units), waits, _gaps(known), _order(known), *_unsound(units), *_ballasts(units)]
    if len(known) < 2:
        return [*filter(None, said), f"{CANNOT_TELL}fewer than two of these units have a "
                "capability that it gives a figure for.", CAUTION]
    return [*filter(None, [*said, *_going_along(known), _against(units)]), CAUTION]


def _risks(units) -> str:
    """What can hurt somebody stands before all that is said of power."""
    graded = [f"{level} in {and_between(letters)}" for level in reversed(ORDER[1:])
              if (letters := [one.letter for one in units if one.risk == level])]
    if not graded:
        return ""
    rest = [one.letter for one in units if not one.risk]
    text = f"The level of the gravest finding about safety is {', '.join(graded)}"
    return f"{text}; nothing recorded of {and_between(rest)} has one." if rest else f"{text}."


def _gaps(units) -> str:
    """The largest and the smallest ratio of what is claimed to what the evidence gives."""
    ratios = sorted(((one.claimed / one.capability, one) for one in units
                     if one.claimed and one.capability), key=lambda pair: -pair[0])
    if not ratios:
        return ""
    (most, first), (least, last) = ratios[0], ratios[-1]
    text = (f"Unit {first.letter} claims {number(most, 2)} times the capability that the evidence "
            f"gives it ({claimed_watts(first.claimed)} against "
            f"{with_unit(number(first.capability), 'W')})")
    if len(ratios) == 1:
        return f"{text}; of the others the evidence gives no such ratio."
    if most / least < ALIKE:
        return f"{text}, and the others about as much."
    return f"{text}, unit {last.letter} {number(least, 2)} times."


def _unsound(units) -> list[str]:
    """Units whose capability no comparison may lean on."""
    said = {word: [one.letter for one in units if one.verdict == word and one.capability]
            for word in UNSOUND}
    unknown = [one.letter for one in units if not one.capability]
    return [*([f"The evidence gives {and_between(unknown)} no capability."] if unknown else ()), *(
        f"The evidence of {and_between(found)} {UNSOUND[word]}, so nothing is concluded from "
        f"{'its' if len(found) == 1 else 'their'} capability."
        for word, found in said.items() if found)]


def _order(known) -> str:
    """Whether the evidence tells the capabilities apart at all."""
    if len(known) < 2:
        return ""
    ordered = sorted(known, key=lambda one: -one.capability)
    first, last = ordered[0], ordered[-1]
    if first.low > last.high:
        return (f"The capability is highest in {first.letter} "
                f"({with_unit(span(first.low, first.high), 'W')}) and lowest in {last.letter} "
                f"({with_unit(span(last.low, last.high), 'W')}).")
    return ("The intervals of the capabilities overlap: which of these units delivers more, the "
            "evidence does not decide.")


def _ballasts(units) -> list[str]:
    return [f"In {one.letter}, {print_quantity(one.ballast.value, 'kg')} of the "
            f"{print_quantity(one.mass.value, 'kg')} are parts with no function."
            for one in units if one.ballast.value and one.mass.value]


def _going_along(known) -> list[str]:
    """The facts that differ most first; then what cannot be compared."""
    compared = [(quality, [(quality.of(one).value, one) for one in known
                           if quality.of(one).value]) for quality in QUALITIES]
    ready = sorted((pair for pair in compared if len(pair[1]) > 1), key=lambda pair:
                   -_spread(pair[1]))
    said = [_relation(quality, found, len(known)) for quality, found in ready[:NAMED]]
    unknown = [quality.name for quality, found in compared if len(found) < 2]
    if unknown:
        said.append(f"Of {and_between(unknown)} fewer than two of these units have a value, so "
                    "whether that goes along with it cannot be told.")
    return said


def _spread(found) -> float:
    values = [value for value, _ in found]
    return log(max(values) / min(values))


def _relation(quality, found, of) -> str:
    values = ", ".join(f"{said(quality.text(value))} in {one.letter}" for value, one in found)
    missing = said(f"(not known in {of - len(found)} of them)") if len(found) < of else ""
    name = said(quality.name[:1].upper() + quality.name[1:])
    return AsWritten(f"{name} {said(_direction(found))}: {values} {missing}".rstrip() + ".")


def _direction(found) -> str:
    """Over all pairs whose capabilities the intervals tell apart."""
    if _spread(found) < log(ALIKE):
        return "is about the same"
    pairs = [(a, b) for (a, one), (b, other) in combinations(found, 2)
             for a, b in ([(a, b)] if one.low > other.high else
                          [(b, a)] if other.low > one.high else [])]
    if not pairs:
        return "differs, between units whose capabilities the evidence does not tell apart"
    along = sum(more > ALIKE * less for more, less in pairs)
    against = sum(less > ALIKE * more for more, less in pairs)
    if along and not against:
        return ("is larger where the capability is higher" if along == len(pairs)
                else "is mostly larger where the capability is higher")
    if against and not along:
        return "is smaller where the capability is higher"
    return "does not follow the capability" if along or against else "is about the same"


def _against(units) -> str:
    """What weighs most against each claim that the evidence speaks against."""
    told = [f"{said('in')} {one.letter} “{said(one.against[0])}” "
            f"({said(f'{decibans(one.against[1])} decibans')})"
            for one in units if one.against and one.against[1] <= -WEAK
            and one.verdict in ("doubtful", "implausible", "not attainable on this evidence")]
    weighs = f" {said('and')} ".join(filter(None, (", ".join(told[:-1]), *told[-1:])))
    return f"Most weighs against the claim {weighs}." if told else ""
