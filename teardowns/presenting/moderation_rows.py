"""The moderators' screen: counts with ages, and lists whose rows say what is pressing and why."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from django.urls import reverse

from teardowns.models import Status
from teardowns.reasons import BY_CODE, HARM_WORDS

from .moderation_times import age, is_neglected, moment, time_left

READY, SUBMITTED, IN_REVIEW, SENT_BACK, QUARANTINED = (
    "ready", "submitted", "in_review", "sent_back", "quarantined")
# Lists of records in the order of the page: key, heading, what stands in an empty one.
LISTS = (
    (READY, "Reviewed, waiting for publication", "Nothing reviewed waits."),
    (SUBMITTED, "Submitted, no review taken on", "Every submitted record has a reviewer."),
    (IN_REVIEW, "In review", "Nobody reviews at the moment."),
    (SENT_BACK, "Sent back, with their authors", "Nothing lies with its author."),
    (QUARANTINED, "In quarantine or hidden as a whole", "No record is out of sight."),
)
# What other pages work off.
PILES = (("replies", "Replies to verify"), ("comments", "Comments held until looked at"),
         ("parts", "Parts proposed"), ("families", "Records proposed for board families"))


def list_of(unit: Any) -> str:
    """Which list a waiting record stands in."""
    if unit.quarantined_at is not None:
        return QUARANTINED
    if unit.work_status == Status.SENT_BACK:
        return SENT_BACK
    if unit.reviewed and not unit.claimed:
        return READY
    return IN_REVIEW if unit.claimed or unit.work_status == Status.IN_REVIEW else SUBMITTED


def unit_lists(units: Iterable[Any], now: datetime, shown: int) -> list[dict[str, Any]]:
    by_list: dict[str, list[Any]] = {key: [] for key, *_ in LISTS}
    for unit in units:
        by_list[list_of(unit)].append(unit)
    return [{"key": key, "title": title, "empty": empty, "count": len(by_list[key]),
             "oldest": age(min((one.since for one in by_list[key]), default=None), now),
             "left_out": max(0, len(by_list[key]) - shown),
             "rows": [_unit_row(one, key, now) for one in by_list[key][:shown]]}
            for key, title, empty in LISTS]


def _unit_row(unit, key, now):
    return {"title": unit.title, "address": reverse("moderation_unit", args=[unit.pk]),
            "what": "correction" if unit.work_correction else "record", "number": unit.pk,
            "owner": unit.owner, "age": age(unit.since, now), "since": moment(unit.since),
            "neglected": key != SENT_BACK and is_neglected(unit.owner, unit.since, now)}


def report_rows(reports: Iterable[Any], now: datetime) -> list[dict[str, Any]]:
    return [{"address": reverse("report_case", args=[one.pk]), "number": one.pk,
             "words": BY_CODE[one.code].words, "about": one.about,
             "title": one.unit.title if one.unit else one.about,
             "harm": HARM_WORDS[one.harm], "age": age(one.received_at, now),
             "left": time_left(one.due_at, now), "overdue": one.due_at <= now,
             "owner": one.owner, "neglected": is_neglected(one.owner, one.received_at, now)}
            for one in reports]


def appeal_rows(appeals: Iterable[Any], now: datetime) -> list[dict[str, Any]]:
    return [{"address": reverse("appeal_case", args=[one.pk]), "number": one.pk,
             "decision": one.statement.get_decision_display(),
             "title": one.statement.unit.title if one.statement.unit else one.statement.subject,
             "age": age(one.opened_at, now), "left": time_left(one.due_at, now),
             "overdue": one.due_at <= now, "owner": one.owner,
             "neglected": is_neglected(one.owner, one.opened_at, now)} for one in appeals]


def hidden_rows(hidden: Iterable[Any], now: datetime) -> list[dict[str, Any]]:
    return [{"address": reverse("hidden_case", args=[one.pk]),
             "what": f"{one.get_kind_display()} {one.object_id}",
             "title": one.unit.title if one.unit else "of the library",
             "by": one.by.get_username() if one.by else "the rule of two reports",
             "age": age(one.at, now), "confirmed": one.confirmed_at is not None,
             "left": "until shown again" if one.confirmed_at else time_left(one.until, now)}
            for one in hidden]


def approval_rows(approvals: Iterable[Any], now: datetime) -> list[dict[str, Any]]:
    return [{"what": one.get_action_display(), "subject": one.subject,
             "by": one.asked_by.get_username(), "age": age(one.asked_at, now),
             "own": bool(one.own), "pk": one.pk} for one in approvals]


def pile_rows(piles: Mapping[str, Any], addresses: Mapping[str, str],
              now: datetime) -> list[dict[str, Any]]:
    """addresses : by key of a pile, where it is worked off; "" where there is no page."""
    return [{"key": key, "words": words, "count": piles[key].count,
             "oldest": age(piles[key].oldest, now), "address": addresses.get(key, "")}
            for key, words in PILES]
