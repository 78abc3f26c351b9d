"""What the newest entries of the log speak of: known to each process, read once for all its pages.
"""
from __future__ import annotations

from threading import Lock
from typing import Protocol

from core.audit.models import Entry

MOST = 20_000       # entries that are looked through; beyond, making a page anew is as quick
# Work behind the scenes: what it changes is read in public only after a further entry.
UNSEEN = frozenset((
    "unit_started", "discharge_confirmed", "report_received", "report_resolved", "report_reopened",
    "reporter_seen", "original_seen", "charge_taken", "charge_handed_over", "appeal_opened",
    "approval_asked", "approval_refused", "approval_taken_back", "token_issued", "token_revoked",
    "saved_reply_kept", "saved_reply_retired", "part_proposed", "part_proposal_taken_back",
    "member_proposed", "member_taken_back"))
# What these change is read, if at all, on pages about the unit that their entry names. That a unit
# came or went others are told by rows of their own: what is alike, what sister boards showed.
OF_ONE_UNIT = frozenset((
    "section_saved", "photo_received", "photo_described", "photo_covered", "mark_put",
    "mark_removed", "photo_clicked", "photo_scaled", "length_read", "recording_received",
    "recording_described", "recording_laid_out", "recording_read_anew", "span_moved",
    "result_taken", "work_submit", "work_take_back", "work_discard", "work_claim", "work_release",
    "work_send_back", "work_decline", "work_reconsider", "work_publish", "work_withdraw",
    "work_reinstate", "unit_quarantined", "unit_released", "evidence_decided", "conflict_declared",
    "review_closed", "review_released", "tie_declared", "tie_ended", "correction_opened",
    "comment_written", "comment_edited", "comment_retracted", "comment_released",
    "comment_removed", "reply_received", "reply_verified", "reply_declined", "dispute_answered"))


class Moment(Protocol):
    """Some units, and the end of the log as somebody saw it."""

    @property
    def units(self) -> tuple[int, ...]: ...
    @property
    def sequence(self) -> int: ...
    @property
    def end(self) -> str: ...


class LogTail:
    """Which entry spoke last of each unit, and which of all of them, as far back as was asked."""

    def __init__(self):
        self._lock = Lock()
        self._forget()

    def concerns(self, then: Moment, now: Moment) -> bool:
        """Whether an entry between the two may tell of something that is read about the units; yes
        as well where nobody knows. No query, mostly, for each entry is read once; two at most."""
        if not 0 < now.sequence - then.sequence <= MOST:
            return True
        with self._lock:
            if not (self._knows(then) and self._knows(now)):
                self._read(then, now)
            if not (self._knows(then) and self._knows(now)):
                return True             # another log
            of_units = max(self._of_unit.get(pk, 0) for pk in then.units)
            return max(of_units, self._of_all) > then.sequence

    def _forget(self):
        self._ends: dict[int, str] = {}         # hash of each entry, by its number
        self._of_unit: dict[int, int] = {}
        self._of_all = 0

    def _knows(self, moment):
        return self._ends.get(moment.sequence) == moment.end

    def _read(self, then, now):
        """On from the last entry that is known; anew where that is not the log's any more."""
        if not self._knows(then) or len(self._ends) > MOST:
            self._forget()
        start = max(self._ends, default=then.sequence)
        rows = list(Entry.objects.filter(sequence__gte=start, sequence__lte=now.sequence)
                    .order_by("sequence").values_list("sequence", "hash", "action", "unit"))
        if self._ends and (not rows or rows[0][:2] != (start, self._ends[start])):
            self._forget()
            return self._read(then, now)
        for sequence, end, action, unit in rows:
            self._ends[sequence] = end
            if action in OF_ONE_UNIT and unit is not None:
                self._of_unit[unit] = sequence
            elif action not in UNSEEN:
                self._of_all = sequence


tail = LogTail()
