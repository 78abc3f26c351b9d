"""A two-person action in a sentence: what becomes of what, and who asked."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from core.accounts.models import Role, User
from teardowns.models import ApprovalAction, Unit

from .moderation_times import age, moment


def names_behind(approvals: Iterable[Any]) -> dict[str, str]:
    """Titles and public names by subject, in at most two queries."""
    subjects = {subject for one in approvals for subject in _subjects(one)}
    units = _numbers(subjects, "unit/")
    people = _numbers(subjects, "user/")
    found = {f"unit/{pk}": title for pk, title in Unit.objects.filter(
        pk__in=units).values_list("pk", "title")} if units else {}
    if people:
        found |= {f"user/{one.pk}": one.get_username()
                  for one in User.objects.filter(pk__in=people)}
    return found


def approval_sheet(approval: Any, names: Mapping[str, str], now: datetime) -> dict[str, Any]:
    return {
        "pk": approval.pk, "what": _sentence(approval, names), "reason": approval.reason,
        "by": approval.asked_by.get_username(), "age": age(approval.asked_at, now),
        "own": bool(getattr(approval, "own", False)), "state": approval.get_state_display(),
        "decided_by": approval.decided_by.get_username() if approval.decided_by else "",
        "decided_at": moment(approval.decided_at), "answer": approval.answer,
    }


def _sentence(approval, names):
    name = names.get(approval.subject, approval.subject)
    if approval.action == ApprovalAction.MERGE:
        into = approval.detail["into"]
        other = names.get(f"unit/{into}", f"record {into}")
        number = approval.subject.removeprefix("unit/")
        return (f"Merge “{name}” (record {number}) into “{other}” (record {into}). The first "
                "becomes a tombstone that names the second; no evidence is mixed.")
    return (f"Make {name} {_a(Role(approval.detail['role']).label)}, now "
            f"{_a(Role(approval.detail['before']).label)}.")


def _a(word):
    word = word.lower()
    return f"{'an' if word[0] in 'aeiou' else 'a'} {word}"


def _subjects(approval):
    yield approval.subject
    if "into" in approval.detail:
        yield f"unit/{approval.detail['into']}"


def _numbers(subjects, kind):
    return [int(one.removeprefix(kind)) for one in subjects if one.startswith(kind)]
