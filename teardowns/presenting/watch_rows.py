"""What a person watches, as a list."""
from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from teardowns.models import Watch


def watch_rows(watches: Iterable[Watch], visible: Any) -> list[dict[str, Any]]:
    """visible : the units that the person sees now; others lead nowhere, and can be let go"""
    watches = list(watches)
    seen = set(visible.filter(pk__in=[one.unit_id for one in watches if one.unit_id])
               .values_list("pk", flat=True))
    return [_row(one, one.unit_id is None or one.unit_id in seen) for one in watches]


def _row(watch, is_seen):
    thing = watch.thing
    kind = "unit" if watch.unit_id else "part" if watch.part_id else "board family"
    return {"pk": watch.pk, "kind": kind, "since": f"{watch.since:%Y-%m-%d}",
            "title": str(thing) if is_seen else "a record that is out of sight now",
            "href": thing.get_absolute_url() if is_seen else ""}
