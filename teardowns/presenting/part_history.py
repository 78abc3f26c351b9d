"""What changed in an entry of the part library: what it was, what it is, who, when and why."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from teardowns.models import PartProposal

from .library_texts import moment, quantity_label, value_text

NAMES = {"marking": "Marking", "function": "What it is", "package": "Package", "note": "Remark"}
BY_NOBODY = "nobody signed in"


@dataclass(frozen=True, slots=True)
class Event:
    at: datetime
    when: str
    by: str                  # who made the change
    told: tuple[str, ...]    # each a sentence: "Published power: 12 W, now 13 W."
    of_limit: bool = False   # whether a limit, and with it numbers of units, changed
    why: str = ""            # of the proposal, with its proposer
    reason: str = ""         # of the decision


def part_history(parts: Iterable[Any], limits: Iterable[Any],
                 proposals: Iterable[PartProposal]) -> list[Event]:
    """The newest first. parts, limits : their history rows, the oldest first; proposals : accepted
    ones, with their people."""
    by_note = {f"proposal {one.pk}": one for one in proposals}
    events = [*_of_parts(parts, by_note), *_of_limits(limits, by_note)]
    return sorted(events, key=lambda event: event.at, reverse=True)


def _of_parts(rows, by_note):
    before = None
    for row in rows:
        told = _part_told(before, row)
        if told:
            yield _event(row, told, by_note)
        before = row


def _part_told(before, row):
    if before is None:
        return ("The entry was made.",)
    told = [f"{name}: {_quoted(getattr(before, field))}, now {_quoted(getattr(row, field))}."
            for field, name in NAMES.items() if getattr(before, field) != getattr(row, field)]
    if before.superseded_by_id != row.superseded_by_id:
        told.append(f"Superseded by {_marking(row.superseded_by)}; before, by "
                    f"{_marking(before.superseded_by)}.")
    if before.accepted_at is None and row.accepted_at is not None:
        told.append("Taken into the library.")
    return tuple(told)


def _of_limits(rows, by_note):
    before: dict[int, Any] = {}
    for row in rows:
        told = _limit_told(before.get(row.id), row)
        if told:
            yield _event(row, (told,), by_note, of_limit=True)
        before[row.id] = row


def _limit_told(before, row):
    name, now = quantity_label(row.quantity), value_text(row.quantity, row.value)
    if row.history_type == "-":
        return f"{name}: {now} taken out, which was cited to {row.citation}."
    if before is None:
        return f"{name}: {now}, cited to {row.citation}."
    if (before.value, before.citation) == (row.value, row.citation):
        return ""
    was = value_text(before.quantity, before.value)
    value = f"{was}, now {now}" if before.value != row.value else now
    source = (f"cited to {before.citation}, now to {row.citation}"
              if before.citation != row.citation else f"cited to {row.citation}")
    return f"{name}: {value}; {source}."


def _event(row, told, by_note: Mapping[str, PartProposal], of_limit=False):
    proposal = by_note.get(row.history_change_reason or "")
    by = row.history_user.get_username() if row.history_user else BY_NOBODY
    return Event(
        row.history_date, moment(row.history_date), by, told, of_limit,
        why=f"{proposal.proposer.get_username()}: {proposal.why}" if proposal else "",
        reason=f"{proposal.decided_by.get_username()}: {proposal.reason}" if proposal else "")


def _quoted(text):
    return f"“{text}”" if text else "blank"


def _marking(part):
    return part.marking if part else "none"
