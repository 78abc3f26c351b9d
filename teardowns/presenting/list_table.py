"""The list of units as a table of text for other programs: what each column is and how it prints.

RFC 4180. Numbers are SI with all their digits and never quoted or altered; a text that a
spreadsheet would run as a formula gets an apostrophe in front (OWASP, "CSV Injection").
"""
from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from teardowns.engine.risk import ORDER
from teardowns.logs.written import without_formula

TEXT, WORDS = without_formula, lambda codes: without_formula(" ".join(codes))


def plain(value: Any) -> str:
    """A number or a date, so that it reads back as the same; unknown stays empty."""
    return "" if value is None else str(value)


@dataclass(frozen=True, slots=True)
class Column:
    heading: str             # with its unit
    source: str              # of the listing's row
    meaning: str
    shown: Callable[[Any], str] = plain


COLUMNS = (
    Column("unit", "pk", "Number of the record; its page is /units/NUMBER/."),
    Column("version", "publication__number", "Version of the record that the row tells of."),
    Column("title", "title", "As its contributor named it.", TEXT),
    Column("maker", "maker", "As marked or listed; not verified.", TEXT),
    Column("model", "model", "As marked or listed; not verified.", TEXT),
    Column("kind", "kind", "Plug-in charger, desktop adapter, mains outlet or other."),
    Column("channel", "channel", "Kind of place where it was obtained."),
    Column("year", "year", "In which it was obtained."),
    Column("published", "published_at", "When it was first public, ISO 8601.",
           lambda at: at.date().isoformat()),
    Column("verdict", "verdict", "On its largest power claim, of confirmed evidence."),
    Column("plausibility (1)", "plausibility",
           "That the claim is true of the unit examined, 0 to 1, at even odds before evidence."),
    Column("claimed_power (W)", "claimed_power", "Its largest power claim."),
    Column("capability (W)", "capability",
           "Continuous output power that the evidence supports, median."),
    Column("capability_low (W)", "capability_low", "The same, 5 %."),
    Column("capability_high (W)", "capability_high", "The same, 95 %."),
    Column("measured_power (W)", "measured_power",
           "Between a load that was held and one a little higher that was too much; empty where "
           "ballast was found or the two lie far apart."),
    Column("load_held (W)", "load_held", "Highest load that the unit as a whole held."),
    Column("load_lost (W)", "load_lost", "Lowest load above it at which it failed."),
    Column("load_mains (V)", "load_mains", "Mains voltage of that test."),
    Column("gap (1)", "gap", "Claimed power over capability."),
    Column("risk", "risk", "Level of the gravest finding: an illustration, by a table from "
           "memory. Empty is no level, which does not say that it is safe.", ORDER.__getitem__),
    Column("flags", "flags", "Points that can hurt and have no level."),
    Column("hazards", "hazards", "Kinds of harm of its findings, with spaces between.", WORDS),
    Column("insulation_margin (1)", "insulation_margin",
           "Smallest measured distance across the barrier over its lenient requirement."),
    Column("mass (kg)", "mass", "Without ballast."),
    Column("volume (m³)", "volume", "Of the case."),
    Column("bulk_capacitance (F)", "bulk_capacitance", "Of all bulk capacitors in parallel."),
    Column("topology", "topology", "Code of the converter.", TEXT),
    Column("controller", "controller", "Marking of the primary controller.", TEXT),
    Column("connectors", "connectors", "Codes of its outputs, with spaces between.", WORDS),
    Column("families", "families", "Board families it belongs to, with spaces between.", WORDS),
    Column("reach", "reach", "Sales that its listing shows."),
    Column("completeness (1)", "completeness", "Share of what is asked for that was answered."),
    Column("rulebook", "publication__standing__rulebook",
           "Version of the rules that gave verdict and capability."),
)
SOURCES = tuple(column.source for column in COLUMNS)


def table_lines(rows: Iterable[Sequence[Any]], licence: str) -> Iterator[str]:
    """The heading and then each row of SOURCES, with the licence in the last column."""
    yield _line([*(column.heading for column in COLUMNS), "licence"])
    for row in rows:
        yield _line([*(column.shown(value) for column, value in zip(COLUMNS, row, strict=True)),
                     licence])


def _line(cells: Sequence[str]) -> str:
    text = io.StringIO()
    csv.writer(text).writerow(cells)
    return text.getvalue()
