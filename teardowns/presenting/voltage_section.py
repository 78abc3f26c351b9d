"""What speaks for and against each printed voltage above 5 V."""
from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from teardowns.figures.marks import kind_mark
from teardowns.figures.markup import element, escape

from .links import Links
from .numbers import decibans, number, p_equals, plausibility, volts, way, with_unit
from .power_section import missing_in_words


@dataclass(frozen=True, slots=True)
class Voltage:
    name: str               # "20 V"
    plausibility: str
    working: str            # address


@dataclass(frozen=True, slots=True)
class Spoken:
    voltage: str            # "20 V"
    text: str               # "against −22.0"
    working: str            # address, or ""


@dataclass(frozen=True, slots=True)
class VoltageLine:
    name: SafeString
    found: str              # "11.9 V"; "" for a mechanism, which has no volts
    working: str            # address of the number found, or ""
    speaks: list[Spoken]


@dataclass(frozen=True, slots=True)
class VoltageTable:
    voltages: list[Voltage]
    lines: list[VoltageLine]
    feedback: str


def voltage_table(report: dict, links: Links, states: dict[str, str]) -> VoltageTable | None:
    """Lines of evidence against claimed voltages; None where no voltage above 5 V is judged."""
    claims = _by_voltage(report)
    if not claims:
        return None
    lines = [line for line in report["lines"] if line["target"] == "voltage"]
    silent = [line for line in report["unmeasured"] if line["id"].startswith("voltage/")]
    return VoltageTable(
        [_voltage(claim, links) for claim in claims],
        [_line(line, claims, links) for line in lines] + [_gap(line, states) for line in silent],
        feedback(report),
    )


def _by_voltage(report: dict) -> list[dict]:
    """One claim for each judged voltage, the lowest first."""
    claims = {claim["voltage"]: claim for claim in report["claims"]
              if claim["plausibility_voltage"] is not None}
    return [claims[voltage] for voltage in sorted(claims)]


def _voltage(claim: dict, links: Links) -> Voltage:
    return Voltage(volts(claim["voltage"]), plausibility(claim["plausibility_voltage"]),
                   links.claim(claim["ref"]))


def _line(line: dict, claims: list[dict], links: Links) -> VoltageLine:
    at = line["ends"]["low"]
    known = at is not None and at["value"] is not None
    name = escape(line["title"]) + element("small", escape(line["detail"]))
    return VoltageLine(
        name=mark_safe(kind_mark(line["kind"], name)),
        found=with_unit(number(at["value"]), line["unit"]) if known else "",
        working=links.working(line["id"], "low") if known else "",
        speaks=[_speaks(line, claim, links) for claim in claims],
    )


def _speaks(line: dict, claim: dict, links: Links) -> Spoken:
    name = volts(claim["voltage"])
    for weight in claim["weights"]:
        if weight["line"] == line["id"]:
            return Spoken(name, f"{way(weight['decibans'])} {decibans(weight['decibans'])}",
                          links.working(line["id"], "low", claim["ref"]))
    return Spoken(name, "says nothing", "")


def _gap(line: dict, states: dict[str, str]) -> VoltageLine:
    words = missing_in_words(line["title"], line["reads"], states)
    name = element("span", escape(line["title"])) + element("small", escape(words))
    return VoltageLine(mark_safe(name), "no value", "", [])


def feedback(report: dict) -> str:
    """How the output is regulated, by the row of the feedback table that fits."""
    found = report["feedback"]
    if found["row"] is None:
        return found["note"] or "The feedback path was not recorded well enough to tell."
    if found["switchable"] is None:
        return f"Feedback row {found['row']}. {found['note']}"
    chance = p_equals(found["switchable"])
    return (f"Feedback row {found['row']}, able to change its output voltage with {chance}. "
            f"{found['note']}")
