"""What a unit's page says of other boards: which it looks like, and what sister boards showed."""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.urls import reverse

from teardowns.engine.quantities import QUANTITIES
from teardowns.exchange.verdict_changes import Moved, VerdictChanges
from teardowns.models import Publication, Role, SisterReport
from teardowns.reading.quantity import print_quantity

from .evidence_names import quantity_label
from .links import Links
from .list_words import and_between
from .numbers import as_recorded
from .verdict_difference import WasNow, verdict_difference

K = 2                    # printed ±, as elsewhere on the page: an interval of 95 %
SAID = {
    "no evidence": "too little would be known to say anything of {}",
    "possible": "{} would be possible", "doubtful": "{} would be doubtful",
    "evidence contradicts itself": "the evidence on {} would contradict itself, which speaks "
                                   "against one board",
}


@dataclass(frozen=True, slots=True)
class Alike:
    """A unit whose board looks the same."""

    address: str
    name: str                # "unit 12"
    score: str               # "0.83"
    words: str               # "primary controller, core and primary turns"


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a value was found."""

    address: str
    name: str                # "unit 12, version 2"


@dataclass(frozen=True, slots=True)
class Lent:
    """One quantity that another unit showed."""

    name: str
    value: str
    origin: Origin
    because: str             # "not looked at here; ± widened by 5 % of the value"


@dataclass(frozen=True, slots=True)
class Named:
    """A sentence about another unit, which it names."""

    text: str
    origin: Origin


@dataclass(frozen=True, slots=True)
class SisterBoards:
    families: list[str]              # addresses
    sentences: list[str]             # the difference in words
    rows: list[WasNow]               # the same claim by claim, and the capability
    lent: list[Lent]
    set_aside: list[Named]
    between: list[str]               # sisters that contradict each other
    open_points: list[Named]


def alike_units(publication: Publication | None) -> list[Alike]:
    """publication : fetched with its likeness"""
    likeness = getattr(publication, "likeness", None)
    return [Alike(reverse("unit_detail", args=[pk]), f"unit {pk}", f"{score:.2f}", words)
            for pk, score, words in (likeness.alike if likeness else ())]


def sister_boards(publication: Publication | None) -> SisterBoards | None:
    """None where no sister board showed anything, or what it showed is being worked out anew.

    publication : fetched with its sister report
    """
    report = getattr(publication, "sister_report", None)
    if report is None or not report.holds:
        return None
    if not (report.inherited or report.set_aside or report.between or report.open_points):
        return None
    changes = changes_of(report)
    shown = verdict_difference(changes)
    return SisterBoards(
        [reverse("family_detail", args=[slug]) for slug in report.families],
        _sentences(changes, shown), [*shown.claims, *shown.capability],
        [lent_row(row) for row in report.inherited],
        [set_aside(row, publication.unit_id) for row in report.set_aside],
        [disagreement(row) for row in report.between],
        [_open_point(row) for row in report.open_points])


def changes_of(report: SisterReport) -> VerdictChanges:
    moved = [[Moved(*row) for row in rows] for rows in (report.claims, report.capability)]
    return VerdictChanges(None, *map(tuple, moved), None, (), (), ())


def _sentences(changes, shown) -> list[str]:
    if not (shown.claims or shown.capability or changes.words):
        return []
    words = [f"With what sister boards showed, {_said(now, len(claims))}, not “{was}”: "
             f"{', '.join(claims)}." for (was, now), claims in grouped_words(changes).items()]
    if words:
        return words
    return ["With what sister boards showed, no word about a claim would be another."]


def grouped_words(changes: VerdictChanges) -> dict[tuple[str, str], list[str]]:
    """By the word as it is and with sister boards, the claims whose word would be another."""
    found: dict[tuple[str, str], list[str]] = {}
    for one in changes.words:
        found.setdefault((one.was["verdict"], one.now["verdict"]), []).append(_claim(one.now))
    return found


def _said(word, claims):
    what = "this claim" if claims == 1 else f"these {claims} claims"
    return SAID[word].format(what) if word in SAID else f"{what} would be “{word}”"


def _claim(claim):
    text = " ".join(claim["printed"].split()) if claim.get("printed") else ""
    return f"“{text}”" if text else claim["text"]


def lent_row(row: Mapping[str, Any]) -> Lent:
    """row : exchange.inherited.Inherited as JSON"""
    return Lent(quantity_label(row["code"]), value_of(row), origin_of(row), _because(row))


def _because(row):
    if not row["share"]:
        return row["because"]
    return f"{row['because']}; ± widened by {row['share'] * 100:.0f} % of the value (k = 1)"


def value_of(row: Mapping[str, Any]) -> str:
    """`117 ± 13`: value and an interval of 95 %."""
    unit = QUANTITIES[row["code"]].unit
    if not row["u"]:
        return as_recorded(row["value"], unit)
    return print_quantity(row["value"], unit, uncertainty=K * row["u"])


def origin_of(row: Mapping[str, Any]) -> Origin:
    """The row of the version that it was found in."""
    links = Links(row["unit"], str(row["version"]))
    first: Sequence[str] = row.get("refs") or ()
    address = links.evidence(first[0]) if first else links.unit
    return Origin(address, f"unit {row['unit']}, version {row['version']}")


def set_aside(row: Mapping[str, Any], mine: int) -> Named:
    """row : exchange.inherited.Disagreement as JSON"""
    sides = sides_of(row)
    other = next(unit for unit in row["units"] if unit != mine)
    text = f"{about_of(row)}: {sides[mine]} here, {sides[other]} there."
    origin = next((origin_of(one) for one in (row["first"], row["second"])
                   if one and one["unit"] == other), _page(other))
    return Named(text, origin)


def disagreement(row: Mapping[str, Any]) -> str:
    """`Primary turns: 24 ± 1 in unit 7, 21.0 ± 0.8 in unit 8. …`"""
    sides = ", ".join(f"{said} in unit {unit}" for unit, said in sides_of(row).items())
    return (f"{about_of(row)}: {sides}. That speaks against one board in "
            f"{units_in_words(row['units'])}.")


def sides_of(row: Mapping[str, Any]) -> dict[int, str]:
    """By unit, what a disagreement has of it."""
    if row["first"] is None:
        return dict(zip(row["units"], row["texts"], strict=True))
    return {one["unit"]: value_of(one) for one in (row["first"], row["second"])}


def about_of(row: Mapping[str, Any]) -> str:
    if row["first"] is None:
        return f"{Role(row['about']).label}, marking".capitalize()
    return quantity_label(row["about"])


def _page(unit):
    return Origin(reverse("unit_detail", args=[unit]), f"unit {unit}")


def _open_point(row):
    level = f", {row['level']} risk there" if row["level"] else ""
    return Named(f"{row['title']}{level}. Whether it is so in this unit is open: look for it.",
                 origin_of(row))


def units_in_words(pks: Iterable[int]) -> str:
    return and_between([f"unit {pk}" for pk in pks])
