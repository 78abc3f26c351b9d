"""Each claim beside its verdict, what decided it, and how plausible it is left."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.engine.verdicts import WEAK
from teardowns.figures.marks import verdict_chip

from .links import Links, anchor, claim_anchor
from .mains import mains_ends, mains_short
from .numbers import decibans, number, plausibility, printed, quoted, with_unit
from .suspicion import suspicion
from .verdict_notes import note_on_word

NAMED = 2               # lines that the table names
NOWHERE: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Plausibility:
    mains: str              # "100 V 50 Hz"
    text: str


@dataclass(frozen=True, slots=True)
class ClaimRow:
    anchor: str
    text: str               # verbatim
    evidence: str           # address of its row of evidence on this page
    ratings: str            # "20 V · 2.25 A · 45 W"
    port: str               # at which it is printed: "USB-C1", or "": several may print the same
    chip: SafeString
    decided: str
    note: str               # what the verdict depends on, or ""
    suspicion: str          # which reading behind a contradiction is most likely wrong, or ""
    plausibilities: list[Plausibility]       # at each mains end
    working: str                             # address


def claim_rows(report: dict, links: Links, ports: Mapping[str, str] = NOWHERE) -> list[ClaimRow]:
    """Power claims, the largest first.

    ports : of claims by their ref, where it is wanted
    """
    claims = sorted(report["claims"], key=lambda claim: -(claim["power"] or 0))
    return [_claim_row(report, claim, links, ports.get(claim["ref"], "")) for claim in claims]


def _claim_row(report: dict, claim: dict, links: Links, port: str) -> ClaimRow:
    lines = {line["id"]: line for line in report["lines"]}
    return ClaimRow(
        anchor=claim_anchor(claim["ref"]),
        text=quoted(claim),
        evidence=f"#{anchor(claim['ref'])}",
        ratings=ratings(claim), port=port,
        chip=mark_safe(verdict_chip(claim["verdict"])),
        decided=decided(claim, lines),
        note=note_on_word(claim, report["claims"]),
        suspicion=suspicion(claim),
        plausibilities=[
            Plausibility(mains_short(report, end), plausibility(claim["ends"][end]))
            for end in mains_ends(report)
        ],
        working=links.claim(claim["ref"]),
    )


def ratings(claim: dict) -> str:
    """`20 V · 2.25 A · 45 W`, as far as claimed."""
    found = ((claim["voltage"], "V"), (claim["current"], "A"), (claim["power"], "W"))
    return " · ".join(with_unit(printed(value), unit) for value, unit in found if value is not None)


def decided(claim: dict, lines: dict[str, dict]) -> str:
    """The lines that weighed most on the side of the verdict, in words."""
    heavy = [w for w in claim["weights"] if abs(w["decibans"]) >= WEAK]
    if not heavy:
        return f"No line of evidence weighs {WEAK:g} decibans or more"
    side = -1 if claim["total_decibans"] < 0 else 1
    named = [w for w in heavy if w["decibans"] * side > 0] or heavy
    return AsWritten("; ".join(_named(weight, lines[weight["line"]]) for weight in named[:NAMED]))


def _named(weight: dict, line: dict) -> str:
    at = line["ends"]["low"] or line["ends"]["high"]
    value = (f", {said(with_unit(number(at['value']), line['unit']))}"
             if at and at["value"] is not None else "")
    weighs = said(f"{decibans(weight['decibans'])} decibans")
    return f"{said(line['title'])}{value} ({weighs})"
