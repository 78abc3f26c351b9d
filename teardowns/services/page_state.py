"""Whether what everybody reads of some units, or of all in a list, is still what it was: for pages
that are kept.

Every change of state ends with an entry of the log, so the end of the log stands for all of them.
What jobs work out without an entry is named besides: another assessment, what looks alike, what
sister boards showed.
"""
from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

from django.db.models import Q, Subquery, TextField
from django.db.models.functions import Cast

from core.audit.models import Entry, Head
from teardowns.models import Unit

from .listing_clock import Mark, current_mark

MOST_ENTRIES = 2000      # since a page was made; beyond, making it anew is as quick
OF_UNIT = ("pk", "status", "quarantined_at", "publication", "publication__standing",
           "publication__standing_all", "publication__likeness__publication",
           "publication__sister_report__wanted", "publication__sister_report__digest",
           "publication__sister_report__made_at")
# Work behind the scenes: what it changes is read in public only after a further entry.
UNSEEN = frozenset((
    "unit_started", "discharge_confirmed", "report_received", "report_resolved", "report_reopened",
    "reporter_seen", "original_seen", "charge_taken", "charge_handed_over", "appeal_opened",
    "approval_asked", "approval_refused", "approval_taken_back", "token_issued", "token_revoked",
    "saved_reply_kept", "saved_reply_retired", "part_proposed", "part_proposal_taken_back",
    "member_proposed", "member_taken_back"))
# What these change is read, if at all, on pages about the unit that their entry names.
OF_ONE_UNIT = frozenset((
    "section_saved", "photo_received", "photo_described", "photo_covered", "mark_put",
    "mark_removed", "photo_clicked", "photo_scaled", "length_read", "recording_received",
    "recording_described", "recording_laid_out", "recording_read_anew", "span_moved",
    "result_taken", "work_submit", "work_take_back", "work_discard", "work_claim", "work_release",
    "work_send_back", "work_decline", "work_reconsider", "evidence_decided", "conflict_declared",
    "review_closed", "review_released", "tie_declared", "tie_ended", "correction_opened",
    "comment_written", "comment_edited", "comment_retracted", "comment_released",
    "comment_removed", "reply_received", "reply_verified", "reply_declined", "dispute_answered"))


@dataclass(frozen=True, slots=True)
class PageState:
    units: tuple[tuple[Any, ...], ...]       # what stands of each
    sequence: int                            # of the end of the log
    end: str                                 # its hash

    def holds(self, now: PageState) -> bool:
        """Whether a page about the units that was made in this state is right in that one.

        At most two queries, and none where nothing happened.
        """
        if self.units != now.units:
            return False
        return self.end == now.end or not _concerned(self, now)


@dataclass(frozen=True, slots=True)
class ListState:
    """Of a page that says nothing but what the listing has."""

    mark: Mark

    def holds(self, now: ListState) -> bool:
        return self == now


def list_state() -> ListState | None:
    """None before anything was listed. One query."""
    mark = current_mark()
    return None if mark.is_beginning else ListState(mark)


def page_state(pks: Collection[int]) -> PageState | None:
    """Of units that everybody sees, all of them; None where one is not, or where no log tells of
    changes. One query."""
    rows = list(_rows().filter(pk__in=pks))
    if len(rows) != len(pks) or not rows or not rows[0][-1]:
        return None
    return PageState(tuple(row[:-2] for row in rows), rows[0][-2], rows[0][-1])


def _rows():
    head = Head.objects.filter(pk=1)
    return Unit.objects.published().order_by("pk").values_list(
        *OF_UNIT, Cast("publication__likeness__alike", TextField()),
        Subquery(head.values("sequence")), Subquery(head.values("hash")))


def _concerned(then: PageState, now: PageState) -> bool:
    """Whether an entry since then may tell of something that is read on the page."""
    if not 0 < now.sequence - then.sequence <= MOST_ENTRIES:
        return True
    if not Entry.objects.filter(sequence=then.sequence, hash=then.end).exists():
        return True
    since = Entry.objects.filter(sequence__gt=then.sequence, sequence__lte=now.sequence)
    here = [pk for pk, *_ in now.units]
    elsewhere = Q(action__in=OF_ONE_UNIT, unit__isnull=False) & ~Q(unit__in=here)
    return since.exclude(Q(action__in=UNSEEN) | elsewhere).exists()
