"""What the board families are called that a list counts by their slugs."""
from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from teardowns.models import BoardFamily


class _Kept(NamedTuple):
    """Names in one state of the listing, by slug."""

    state: object
    names: dict[str, str]


_kept = _Kept(None, {})


def family_names(slugs: Iterable[str], state: object = None) -> dict[str, str]:
    """One query, or none where the names are known.

    state : an object that stands for the listing as it is, and another one after each change: a
    new name of a family is one
    """
    global _kept
    kept = _kept if state is not None and _kept.state is state else _Kept(state, {})
    missing = [slug for slug in slugs if slug not in kept.names]
    if missing:
        kept.names.update(
            BoardFamily.objects.filter(slug__in=missing).values_list("slug", "name"))
        _kept = kept
    return kept.names
