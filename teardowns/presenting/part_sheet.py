"""An entry of the part library, and a proposal to change one, as their pages print them."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.urls import reverse

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.models import Change, Part, PartLimit, PartProposal, Role

from .library_texts import moment, quantity_label, value_text
from .library_units import LibraryUnit, library_unit
from .part_powers import UNKNOWN_POWERS, PowerCells

LABELS = {"marking": "Marking", "function": "What it is", "package": "Package", "note": "Remark",
          "value": "Value", "source": "Source", "document": "Source",
          "successor": "Superseded by", "reason": "Reason", "why": "Why"}
NONE = "none"


@dataclass(frozen=True, slots=True)
class LimitLine:
    pk: int
    name: str
    meaning: str
    value: str
    citation: str
    is_disagreed: bool       # another source gives another value: then neither is used


@dataclass(frozen=True, slots=True)
class Containing:
    unit: LibraryUnit
    rows: str                # "primary controller U1; output rectifier D5 (2)"
    is_earlier: bool         # published before the latest change of a limit
    powers: PowerCells       # what was measured, and what is worked out


@dataclass(frozen=True, slots=True)
class Difference:
    label: str
    before: str
    after: str


def limit_lines(limits: Iterable[PartLimit], meanings: Any) -> list[LimitLine]:
    """meanings : the engine's quantities by code"""
    limits = list(limits)
    values: dict[str, set[float]] = {}
    for limit in limits:
        values.setdefault(limit.quantity, set()).add(limit.value)
    return [LimitLine(
        limit.pk, quantity_label(limit.quantity),
        meanings[limit.quantity].meaning if limit.quantity in meanings else "",
        value_text(limit.quantity, limit.value), limit.citation, len(values[limit.quantity]) > 1,
    ) for limit in limits]


def containing(units: Iterable[Any], limits_changed: datetime | None,
               powers: Mapping[int, PowerCells]) -> list[Containing]:
    """units : with `pk`, the columns of their `version`, and `rows` of components"""
    return [Containing(library_unit(one.pk, one.version), "; ".join(map(_row, one.rows)),
                       _is_earlier(one.version["published_at"], limits_changed),
                       powers.get(one.pk, UNKNOWN_POWERS))
            for one in units]


def _is_earlier(published_at, limits_changed):
    return bool(published_at and limits_changed and published_at < limits_changed)


def _row(row):
    many = f" ({row['count']})" if row["count"] != 1 else ""
    return f"{Role(row['role']).label} {row['designator']}".strip() + many


def differences(proposal: PartProposal) -> list[Difference]:
    """What the library says and what the proposal would have it say, field by field."""
    part, change = proposal.part, proposal.change
    if change in (Change.PART, Change.DESCRIPTION):
        names = ["function", "package", "note"]
        if change == Change.PART:
            names = ["marking", *names]
        found = [Difference(LABELS[name], _text(part, name), _text(proposal, name))
                 for name in names]
        return found + (_limit_difference(proposal) if proposal.quantity else [])
    if change == Change.SUPERSEDED:
        return [Difference(LABELS["successor"], _text(part.superseded_by, "marking"),
                           _text(proposal.successor, "marking"))]
    return _limit_difference(proposal)


def _limit_difference(proposal):
    name, code = quantity_label(proposal.quantity), proposal.quantity
    before = value_text(code, proposal.before_value) if proposal.before_citation else NONE
    source = _text(proposal, "before_citation")
    if proposal.change == Change.LIMIT_REMOVED:
        return [Difference(name, before, "taken out"), Difference(LABELS["source"], source, NONE)]
    return [Difference(name, before, value_text(code, proposal.value)),
            Difference(LABELS["source"], source, _text(proposal, "citation"))]


def _text(written, name):
    return AsWritten(getattr(written, name) if written else "") or NONE


@dataclass(frozen=True, slots=True)
class ProposalLine:
    address: str
    title: str               # "a new limit: PZ6318"
    told: str                # "Published power: none → 12 W"
    why: str
    by: str
    when: str
    state: str
    reason: str              # with who decided
    is_open: bool


def proposal_line(proposal: PartProposal) -> ProposalLine:
    """proposal : with its people and parts"""
    told = "; ".join(f"{said(one.label)}: {said(one.before)} → {said(one.after)}"
                     for one in differences(proposal) if one.before != one.after)
    decided = proposal.decided_by
    return ProposalLine(
        proposal.get_absolute_url(), str(proposal), AsWritten(told), proposal.why,
        proposal.proposer.get_username(), moment(proposal.proposed_at),
        proposal.get_state_display(),
        f"{decided.get_username()}: {proposal.reason}" if decided else "", proposal.is_open)


def stale_lines(form_texts: dict[str, str], current: Mapping[str, str],
                quantity: str = "") -> list[dict[str, str]]:
    """Both texts of each field that changed meanwhile: what was typed and what stands now."""
    return [{"label": LABELS.get(name, name), "yours": form_texts.get(name, ""),
             "current": _current(name, value, quantity)} for name, value in current.items()]


def _current(name, value, quantity):
    return value_text(quantity, float(value)) if name == "value" else value or NONE


def offers(part: Part) -> list[tuple[str, str]]:
    """What can be proposed of the part as a whole: name and address."""
    address = reverse("part_propose", args=[part.pk])
    return [("Propose a limit", f"{address}?what={Change.LIMIT}"),
            ("Propose another description", f"{address}?what={Change.DESCRIPTION}"),
            ("Propose what supersedes it", f"{address}?what={Change.SUPERSEDED}")]
