"""The facts under the title."""
from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import mark_safe

from teardowns.engine.safety_words import UNMEASURED
from teardowns.figures.marks import verdict_chip
from teardowns.reading.quantity import print_quantity

from .insulation_section import InsulationSection
from .links import Links
from .numbers import THIN, claimed_watts, number, span, volts, with_unit
from .safety_points import undecided_words

NOT_KNOWN = "not known"
WAITS = "not yet agreed on by two reviewers"
ONE_EACH = "one reviewer is enough for a row"
REVIEWED = (("disputed", "disputed"), ("remeasured", "re-measured"), ("open", "not reviewed"))


@dataclass(frozen=True, slots=True)
class Fact:
    name: str
    value: str              # or markup
    remark: str = ""
    href: str = ""          # to the working of the value


def facts(report: dict | None, rows: dict[str, list], links: Links,
          hazard: InsulationSection, findings: dict | None = None) -> list[Fact]:
    """Claimed, capability, verdict, points about safety (once the unit is assessed), the gravest
    finding where there is one, mass, and state of review.

    findings : of `findings_section`
    """
    judged = [_claimed(report), _capability(report, links), _verdict(report)] if report else []
    return [*judged, *_safety(hazard), *_gravest(findings), _mass(rows["measurement"]),
            _confirmed(rows, _awaits(findings))]


def _claimed(report: dict) -> Fact:
    if report["headline"] is None:
        return Fact("Claimed", "no power claim")
    return Fact("Claimed", claimed_watts(report["claims"][report["headline"]]["power"]))


def _capability(report: dict, links: Links) -> Fact:
    mains, found = report["mains"]["low"], report["capability"]["low"]
    name = f"Capability at {volts(mains['voltage'])}{' (assumed)' if mains['assumed'] else ''}"
    if found is None:
        return Fact(name, "cannot tell", "no line of evidence")
    interval = with_unit(span(found["low"], found["high"]), "W")
    href = ""
    if report["headline"] is not None:
        href = f"{links.claim(report['claims'][report['headline']]['ref'])}#capability"
    return Fact(name, with_unit(number(found["median"]), "W"), f"90{THIN}%: {interval}", href)


def _verdict(report: dict) -> Fact:
    if report["headline"] is None:
        return Fact("Verdict on the claim", "nothing to judge")
    word = report["claims"][report["headline"]]["verdict"]
    return Fact("Verdict on the claim", mark_safe(verdict_chip(word)))


def _safety(hazard: InsulationSection) -> list[Fact]:
    """What falls short stands first, then what is open: neither may hide behind what meets."""
    points = hazard.points
    if points is None:
        return []
    waits = undecided_words(len(points.open) + len(points.flagged), len(hazard.missing))
    meets = f"{len(points.meets)} meet their figure"
    if points.short:
        verb = "falls short" if len(points.short) == 1 else "fall short"
        value, remark = f"{len(points.short)} {verb}", [*waits, meets]
    elif not points.meets or hazard.sentences[0] == UNMEASURED:
        value, remark = "cannot tell", waits
    else:
        value, remark = waits[0], [*waits[1:], "none found short", meets]
    return [Fact("Points about safety", value, ", ".join(remark), "#insulation")]


def _gravest(findings: dict | None) -> list[Fact]:
    """Its level with what it is: a level never stands alone, and a serious one that two reviewers
    have not agreed on says so."""
    if not findings or not findings["findings"]:
        return []
    first = findings["findings"][0]
    value = f"{first.level}, {WAITS}" if _awaits(findings) else first.level
    return [Fact("Gravest finding", value, first.title, "#findings")]


def _awaits(findings: dict | None) -> bool:
    """Whether the gravest finding waits for more reviewers than its rows of evidence needed."""
    if not findings or not findings["findings"]:
        return False
    first = findings["findings"][0]
    return first.level == "serious" and not first.is_headline


def _mass(measurements: list) -> Fact:
    known = {row.quantity: row.value for row in measurements if row.value is not None}
    mass = known.get("mass_total")
    sides = [known.get(f"case_{side}") for side in ("height", "width", "depth")]
    if mass is None:
        return Fact("Mass, density", NOT_KNOWN)
    if None in sides or not all(sides):
        return Fact("Mass, density", print_quantity(mass, "kg"), "outside dimensions not known")
    density = mass * 1e3 / (sides[0] * sides[1] * sides[2] * 1e6)          # g/cm³
    return Fact("Mass, density", print_quantity(mass, "kg"), with_unit(f"{density:.2f}", "g/cm³"))


def _confirmed(rows: dict[str, list], awaits: bool) -> Fact:
    """awaits : whether a finding waits for what a row does not need"""
    found = [row.review_state for kind in rows.values() for row in kind]
    counts = [(found.count(state), words) for state, words in REVIEWED]
    remark = ", ".join([*(f"{count} {words}" for count, words in counts if count),
                        *[ONE_EACH] * awaits])
    return Fact("Rows of evidence confirmed", f"{found.count('confirmed')} of {len(found)}", remark,
                "#evidence")
