"""The versions of a unit as a list: which, when, by whom, why, and what they said on their day."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.engine.risk import BESIDE, ORDER
from teardowns.figures.marks import verdict_chip

from .numbers import claimed_watts
from .record_foot import rulebook_text

FIRST = "First version."
NO_CLAIM = "no power claim was judged"
NO_LEVEL = "no level of risk"


@dataclass(frozen=True, slots=True)
class VersionRow:
    number: int
    href: str
    is_newest: bool
    published: str                 # "2026-04-02, by mona"
    why: str
    corrected_by: str              # "" where it came of no correction
    rulebook: str
    verdict: str | SafeString
    claimed: str
    level: str
    beside: str
    since: str                     # address of the difference to the version before, "" for none


def version_rows(unit: Any, publications: Sequence[Any]) -> list[VersionRow]:
    """publications : the newest first, each with moderator, assessment and correction's author"""
    return [_row(unit, one) for one in publications]


def _row(unit, one) -> VersionRow:
    correction, assessment = one.correction, one.assessment
    level = ORDER[assessment.risk]
    since = reverse("unit_difference", args=[unit.pk, one.number, one.number - 1]) \
        if one.number > 1 else ""
    return VersionRow(
        number=one.number, href=one.get_absolute_url(), is_newest=one.pk == unit.publication_id,
        published=AsWritten(f"{one.published_at:%Y-%m-%d}, {said('by')} "
                            f"{one.moderator.get_username()}"),
        why=one.note or (correction.reason if correction
                         else said(FIRST) if one.number == 1 else ""),
        corrected_by=correction.author.get_username() if correction else "",
        rulebook=rulebook_text(assessment.rulebook),
        verdict=mark_safe(verdict_chip(assessment.verdict)) if assessment.verdict else NO_CLAIM,
        claimed=claimed_watts(assessment.claimed_power) if assessment.claimed_power else "",
        level=f"{level} risk" if level else NO_LEVEL, beside=BESIDE if level else "", since=since)
