"""What a person was told, as a list."""
from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.urls import reverse

from teardowns.models import Notice

from .discussion_thread import moment


def notice_rows(notices: Iterable[Notice], visible: Any) -> list[dict[str, Any]]:
    """visible : the units that the person sees now; of others neither title nor link is shown"""
    notices = list(notices)
    seen = set(visible.filter(pk__in={one.unit_id for one in notices if one.unit_id})
               .values_list("pk", flat=True))
    return [_row(one, one.unit_id is None or one.unit_id in seen) for one in notices]


def _row(notice, is_seen):
    href = notice.address or (reverse("unit_detail", args=[notice.unit_id])
                              if notice.unit_id else "")
    return {"pk": notice.pk, "kind": notice.get_kind_display(), "is_read": bool(notice.read_at),
            "title": notice.unit.title if notice.unit and is_seen else "",
            "words": notice.told, "href": href if is_seen else "",
            "at": notice.at.isoformat(), "when": moment(notice.at)}
