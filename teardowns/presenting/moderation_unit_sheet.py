"""One record as a moderator reads it: state, review, cases, author, and what can be done."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from django.urls import reverse

from teardowns.models import Decision, ReportState, Status
from teardowns.reasons import BY_CODE
from teardowns.workflow import EVENTS, WAITING

from .moderation_times import moment, span

# What is decided with a statement: event or step, words on the link, what comes of it.
CHOICES = (
    ("send_back", "Send back with remarks", "Its author changes it and submits again."),
    ("decline", "Decline", "What is public stays; the proposal stays readable to its author."),
    ("quarantine", "Put in quarantine", "Out of public view and of writing; nothing is lost."),
    ("release", "Release from quarantine", "As it was before."),
)
NO_HEADLINE = ("{} has not been confirmed by two people besides its contributor: the record is "
               "published without it as a headline, and says so.")


def unit_choices(unit: Any) -> list[dict[str, str]]:
    """The decisions that the state allows, and where each is taken."""
    open_ones = [one for one in CHOICES if _allows(unit, one[0])]
    found = [{"words": words, "remark": remark, "danger": key,
              "address": reverse("moderation_decide", args=[unit.pk, key])}
             for key, words, remark in open_ones]
    if unit.status in (Status.PUBLISHED, Status.WITHDRAWN):
        public = unit.status == Status.PUBLISHED
        found.append({
            "words": "Withdraw" if public else "Make public again", "danger": "withdraw",
            "remark": "A tombstone with the reason stands at its address; every version is kept."
            if public else "The version that stood before stands again.",
            "address": reverse("unit_withdraw" if public else "unit_reinstate", args=[unit.pk])})
    if unit.status in (Status.PUBLISHED, Status.SUBMITTED, Status.IN_REVIEW):
        found.append({"words": "Merge into another record", "danger": "merge",
                      "remark": "The same specimen twice: it takes two moderators.",
                      "address": reverse("unit_merge", args=[unit.pk])})
    if unit.status == Status.PUBLISHED and unit.quarantined_at is None:
        found.append({"words": "Hide at once for personal data", "danger": "hide",
                      "remark": "For 24 hours, then it is back by itself.",
                      "address": f"{reverse('hide')}?about=unit/{unit.pk}"})
    return found


def _allows(unit, key):
    if key in ("quarantine", "release"):
        return (key == "release") == (unit.quarantined_at is not None)
    return (unit.work_status, key) in EVENTS


def unit_sheet(unit: Any, state: Any, cases: Iterable[Mapping[str, Any]],
               now: datetime) -> dict[str, Any]:
    cases = list(cases)
    return {
        "status": _status(unit), "review": _review(state, now),
        "can_publish": (unit.work_status, "publish") in EVENTS and unit.quarantined_at is None,
        "open_reports": [_case(one) for one in cases
                         if one["case"] == "report" and one["stage"] == ReportState.OPEN],
        "cases": [_case(one) for one in cases],
        "author": [("Published records", unit.author_published),
                   ("Withdrawn records", unit.author_withdrawn),
                   ("Decisions against", unit.author_decisions)],
        "author_address": reverse("person", args=[unit.work_author]),
    }


def _status(unit):
    words = [Status(unit.status).label]
    if unit.work_correction:
        words.append(f"correction {Status(unit.work_status).label}")
    if unit.quarantined_at is not None:
        words.append(f"out of sight since {moment(unit.quarantined_at)}")
    return ", ".join(words)


def _review(state, now):
    return {
        "is_waiting": state.status in WAITING, "ready": state.is_ready, "lacking": state.lacking,
        "decided": f"{len(state.decided)} of {len(state.asked)} rows decided",
        "disputed": len(state.disputed), "reviewers": ", ".join(state.reviewers) or "nobody yet",
        "claims": [f"{one.reviewer}, for {span(now - one.since)}" for one in state.open_claims],
        "remarks": [(one.reviewer, one.text) for one in state.remarks],
        "conflicts": [(one.reviewer, one.text) for one in state.conflicts],
        "pairing": state.pairing,
        "headlines": [NO_HEADLINE.format(title) for title in state.serious_lacking],
    }


def _case(case):
    is_report = case["case"] == "report"
    return {
        "is_report": is_report, "at": moment(case["when"]), "said": case["said"],
        "what": BY_CODE[case["what"]].words if is_report else Decision(case["what"]).label,
        "stage": ReportState(case["stage"]).label if is_report else "",
        "by": case["by_name"],
        "address": reverse("report_case", args=[case["number"]]) if is_report
        else reverse("statement", args=[case["uid"]]),
    }
