"""A board family as its page prints it: units side by side, evidence in words, what changed."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.utils.safestring import SafeString

from teardowns.models import BoardFamily, BoardFamilyMember, ProposalState

from .library_texts import linked, moment
from .library_units import LibraryUnit

APART = ("Nothing of one unit’s evidence is counted for another: each verdict rests on what was "
         "found in that unit alone. That two boards look alike does not tell that their parts are. "
         "What sister boards would add stands beside, and is said to be theirs.")
NAMES = {"name": "Name", "description": "What the board is",
         "evidence_for": "What speaks for one board", "evidence_against": "What speaks against it"}


@dataclass(frozen=True, slots=True)
class MemberLine:
    """A unit of the family, and who said why."""

    unit: LibraryUnit
    address: str             # of the membership
    why: SafeString
    by: str                  # "alice proposed it, mona accepted it on 2026-11-26"
    reason: str
    likeness: str            # "likeness 0.83 when it was proposed", or ""
    beside: str              # what sister boards would change in its verdicts, or ""


@dataclass(frozen=True, slots=True)
class MembershipLine:
    """A membership by itself: waiting, or decided."""

    address: str
    unit: str
    unit_address: str
    why: SafeString
    by: str
    when: str
    state: str
    decided: str             # "mona, 2026-11-26 10:00 UTC: the same board number", or ""
    removed: str
    likeness: str


@dataclass(frozen=True, slots=True)
class Event:
    at: datetime
    when: str
    by: str
    told: tuple[str, ...]
    reason: str = ""


def member_lines(units: Iterable[LibraryUnit], members: Mapping[int, BoardFamilyMember],
                 beside: Mapping[int, str]) -> list[MemberLine]:
    """members : memberships that count, with their people, by unit; beside : see family_boards"""
    return [_member(unit, members[unit.pk], beside.get(unit.pk, "")) for unit in units]


def _member(unit, member, beside):
    accepted = f"{member.decided_by.get_username()} accepted it on {member.decided_at:%Y-%m-%d}"
    return MemberLine(unit, member.get_absolute_url(), linked(member.why),
                      f"{member.proposer.get_username()} proposed it, {accepted}", member.reason,
                      _likeness(member), beside)


def _likeness(member):
    if member.similarity is None:
        return ""
    return f"likeness {member.similarity:.2f} of 1 when it was proposed"


def membership_line(member: BoardFamilyMember) -> MembershipLine:
    """member : with its people and its unit"""
    return MembershipLine(
        member.get_absolute_url(), _called(member), member.unit.get_absolute_url(),
        linked(member.why), member.proposer.get_username(), moment(member.proposed_at),
        member.get_state_display(),
        _said(member.decided_by, member.decided_at, member.reason),
        _said(member.removed_by, member.removed_at, member.removal_reason), _likeness(member))


def _said(person, at, reason):
    return f"{person.get_username()}, {moment(at)}: {reason}" if person else ""


def _called(member):
    return f"unit {member.unit_id}"


def family_history(rows: Iterable[Any], members: Iterable[BoardFamilyMember]) -> list[Event]:
    """The newest first. rows : the family's history, the oldest first; members : with their people;
    of proposals only what was accepted is told."""
    events = [*_of_family(rows), *(event for one in members for event in _of_member(one))]
    return sorted(events, key=lambda event: event.at, reverse=True)


def _of_family(rows):
    before = None
    for row in rows:
        told = ("The family was opened.",) if before is None else tuple(
            f"{name}: “{getattr(before, field)}”, now “{getattr(row, field)}”."
            for field, name in NAMES.items() if getattr(before, field) != getattr(row, field))
        before = row
        if told:
            by = row.history_user.get_username() if row.history_user else "nobody signed in"
            yield Event(row.history_date, moment(row.history_date), by, told)


def _of_member(member):
    if member.state not in (ProposalState.ACCEPTED, ProposalState.REMOVED):
        return
    unit = _called(member)
    yield Event(member.decided_at, moment(member.decided_at), member.decided_by.get_username(),
                (f"Taken in: {unit}, proposed by {member.proposer.get_username()}.",),
                member.reason)
    if member.state == ProposalState.REMOVED:
        yield Event(member.removed_at, moment(member.removed_at),
                    member.removed_by.get_username(), (f"Removed: {unit}.",),
                    member.removal_reason)


def family_texts(family: BoardFamily) -> dict[str, SafeString]:
    return {name: linked(getattr(family, name))
            for name in ("description", "evidence_for", "evidence_against")}
