"""A verdict on an 80-column terminal: a margin that names, a sheet that says."""
from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from textwrap import wrap
from typing import Any

from teardowns.engine.quantities import QUANTITIES
from teardowns.engine.safety_words import DEFERRAL
from teardowns.engine.wording import plain as shortest
from teardowns.management.terminal_figures import (
    CLAIM_KEY,
    KEY,
    cell,
    power_axis,
    power_scale,
    weight_bar,
)
from teardowns.management.terminal_hazards import hazards
from teardowns.reading.printing import print_interval, print_quantity

WIDTH, MARGIN = 80, 14
SHEET = WIDTH - MARGIN
ENDS = ("low", "high")
WORDS = 22                  # columns for the words of a claim
WEIGHTLESS = 0.05           # decibans; what prints as 0.0 is left out
UNREAD = {"not_looked": "not looked at", "not_found": "looked for and not found",
          "not_readable": "not readable"}


def print_verdict(
    document: Mapping[str, Any], report: Mapping[str, Any], assumed: Iterable[Mapping[str, Any]]
) -> str:
    """Everything a report says of a unit, as lines of at most 80 characters."""
    sections = (
        ("Claims", _claims(document, report)), ("Capability", _capability(report)),
        ("Weights", _weights(report)), ("Checks", _checks(report)),
        ("Feedback", _feedback(report["feedback"])),
        ("Hazards", hazards(report["safety"], SHEET)),
        ("Open", _open_questions(report)), ("Assumed", _assumptions(report, assumed)),
        ("Basis", _basis(report)),
    )
    lines = [*_head(document["unit"]), "═" * WIDTH]
    for name, sheet in sections:
        lines += ["", *_beside(name, sheet)]
    lines += ["", "─" * WIDTH, *wrap(DEFERRAL, WIDTH)]
    return "\n".join(line.rstrip().replace("\u202f", " ") for line in lines) + "\n"


def plain(text: str) -> str:
    """Words of a document on one line, without what could steer a terminal."""
    return "".join(char if char.isprintable() else "\ufffd" for char in " ".join(text.split()))


def _head(unit):
    yield from wrap(plain(unit["title"]), WIDTH)
    named = plain(f"{unit['maker']} {unit['model']}")
    yield from wrap(f"{named or 'Maker and model not recorded'}: verdict on the unit examined",
                    WIDTH)


def _beside(name, sheet):
    for number, line in enumerate(sheet):
        yield (name if number == 0 else "").ljust(MARGIN) + line


def _paragraph(text, first="", then=""):
    return wrap(text, SHEET, initial_indent=first, subsequent_indent=then or " " * len(first))


def _claims(document, report) -> Iterator[str]:
    if report["claims"]:
        yield f"{'as printed':{WORDS + 2}}{'plausible':>9}  verdict"
    for index, claim in enumerate(report["claims"]):
        mark = "▸" if index == report["headline"] else " "
        words = cell(plain(claim["printed"]) or claim["text"], WORDS)
        yield f"{mark} {words}{_share(claim['plausibility']):>9}  {claim['verdict']}"
        if claim["verdict_note"]:
            yield from _paragraph(claim["verdict_note"], "    ")
    silent = [UNREAD[row["state"]] for row in document["claims"]
              if row["kind"] in ("output", "total") and row["state"] in UNREAD]
    for words in dict.fromkeys(silent):
        yield f"  {silent.count(words)} printed rating of the output: {words}"
    if not report["claims"] and not silent:
        yield "No claim in volts, amperes or watts was recorded."


def _share(p):
    """A probability that is never printed as certain."""
    return "< 0.01" if p < 0.01 else "> 0.99" if p > 0.99 else f"{p:.2f}"


def _capability(report) -> Iterator[str]:
    known = [end for end in ENDS if report["capability"][end]]
    for end in ENDS:
        at, found = _mains(report, end), report["capability"][end]
        if not found:
            yield f"{at}cannot tell: no line of evidence"
            continue
        yield (f"{at}{print_quantity(found['median'], 'W')} median, 90 % interval "
               f"{print_interval(found['low'], found['high'], 'W')}")
    if known:
        yield from _axis(report, known)


def _mains(report, end):
    mains = report["mains"][end]
    return f"{shortest(mains['voltage'], 'V')} {shortest(mains['frequency'], 'Hz')}".ljust(15)


def _axis(report, known):
    """One drawn line a mains end on a common axis, with the largest claim."""
    claim = (_headline(report) or {}).get("power")
    found = {end: report["capability"][end] for end in known}
    numbers = [one[name] for one in found.values() for name in ("low", "high")]
    ends = power_scale(numbers + ([claim] if claim else []))
    yield ""
    for end, one in found.items():
        line = power_axis(ends, (one["low"], one["high"]), one["median"], claim)
        mains = shortest(report["mains"][end]["voltage"], "V")
        yield f"{mains:6}{shortest(ends[0], 'W'):>7} {line} {shortest(ends[1], 'W')}"
    yield " " * 14 + KEY + (CLAIM_KEY + shortest(claim, "W") if claim else "")


def _headline(report):
    return None if report["headline"] is None else report["claims"][report["headline"]]


def _weights(report) -> Iterator[str]:
    claim = _headline(report)
    if claim is None:
        yield "No power was claimed, so nothing pushes for or against."
        return
    titles = {line["id"]: line["title"] for line in report["lines"]}
    pushing = [one for one in claim["weights"] if abs(one["decibans"]) >= WEIGHTLESS]
    yield f"▸ on the claim of {shortest(claim['power'], 'W')}, in decibans, against ◂ ▸ for"
    for one in pushing:
        weight = f"{_signed(one['decibans']):>7} {weight_bar(one['decibans'])}"
        yield f"{cell(titles[one['line']], 40)}{weight}"
    yield f"{'all together':40}{_signed(claim['total_decibans']):>7}"


def _signed(decibans):
    return f"{decibans:+.1f}".replace("-", "\u2212")


def _checks(report) -> Iterator[str]:
    told = dict.fromkeys((check["outcome"], check["sentence"]) for check in report["checks"])
    for outcome in ("inconsistent", "cannot tell"):
        for found, sentence in told:
            if found == outcome:
                yield from _paragraph(f"{outcome}: {sentence}", "", "  ")
    agreeing = sum(check["outcome"] == "consistent" for check in report["checks"])
    if agreeing:
        yield f"consistent: {agreeing} of {len(report['checks'])} checks"
    if not report["checks"]:
        yield "No claim gave anything to check."


def _feedback(feedback) -> Iterator[str]:
    row = feedback["row"] or "no row of the table is decided"
    p = feedback["switchable"]
    chance = "cannot tell" if p is None else _share(p)
    yield from _paragraph(f"{row}; chance that the output voltage can be switched: {chance}")
    if feedback["note"]:
        yield from _paragraph(feedback["note"])


def _open_questions(report) -> Iterator[str]:
    told = dict.fromkeys([
        *(question["text"] for question in report["open_questions"]),
        *(f"{one['title']}: {ask}" for one in report["safety"]["results"] for ask in one["asks"])])
    for text in told:
        yield from _paragraph(plain(text), "? ")
    if not told:
        yield "No line of evidence waits for a measurement."


def _assumptions(report, assumed) -> Iterator[str]:
    unread = [end for end in ENDS if report["mains"][end]["assumed"]]
    if unread:
        ends = " and ".join(_mains(report, end).strip() for end in unread)
        yield from _paragraph(f"Mains: no rated input was read; judged at {ends}.", "", "  ")
    for one in assumed:
        yield from _paragraph(f"{one['label']}: {_assumed_value(one)}. {one['default_source']}",
                              "", "  ")
    for text in report["safety"]["assumptions"].values():
        yield from _paragraph(text, "", "  ")
    if not unread and not assumed and not report["safety"]["assumptions"]:
        yield "Nothing: every number put in was observed."


def _assumed_value(one):
    if QUANTITIES[one["code"]].is_flag:
        return "present" if one["value"] else "absent"
    return print_quantity(one["value"], one["unit"], uncertainty=one["u"])


def _basis(report) -> Iterator[str]:
    yield f"Rulebook {report['rulebook']}"
    yield f"Evidence {report['evidence_digest'][:16]}"
    yield from _paragraph("A claim covers the whole rated mains range; it is judged at its lower "
                          "end.")
