"""One account as moderators and administrators read it."""
from __future__ import annotations

from typing import Any

from django.urls import reverse

from .moderation_times import moment


def person_row(person: Any) -> dict[str, Any]:
    return {
        "pk": person.pk, "name": person.get_username(), "role": person.get_role_display(),
        "address": reverse("person", args=[person.pk]), "standing": standing(person),
        "published": person.published, "against": person.against,
        "reports": f"{person.upheld} upheld, {person.dismissed} dismissed",
        "joined": f"{person.date_joined:%Y-%m-%d}",
    }


def standing(person: Any) -> str:
    if not person.is_active:
        return "closed"
    if person.is_suspended:
        return f"suspended since {moment(person.suspended_at)}"
    return "in good standing" if person.is_verified else "address not confirmed"
