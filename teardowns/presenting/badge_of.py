"""The badge of a record: what it may say of a version, and what of one that is not public."""
from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from teardowns.figures.badge import badge
from teardowns.writing.render import visible

from .share_words import safety_in_short, verdict_in_short

LONGEST = 46                 # letters of a title
ABSENT = ("Underplate", "There is no public record here",
          "Any verdict shown here before does not stand.")
WITHDRAWN = ("Underplate · unit {}", "This record was withdrawn",
             "Its verdict does not stand.")


def badge_of(publication: Any, report: Mapping[str, Any] | None, *, stands: bool) -> SafeString:
    lines = badge_lines(publication, report, stands=stands)
    return mark_safe(badge(lines, ". ".join(lines)))


def badge_lines(publication: Any, report: Mapping[str, Any] | None, *, stands: bool) -> list[str]:
    """Unit, verdict on power, insulation; an older version says so."""
    title = visible(publication.title)
    title = title if len(title) <= LONGEST else f"{title[:LONGEST - 1].rstrip()}…"
    which = f"unit {publication.unit_id}, version {publication.number}"
    which += "" if stands else ", not the newest"
    return [f"Unit examined: {title}", verdict_in_short(report),
            f"{safety_in_short(report)} · Underplate, {which}"]


def badge_withdrawn(unit: int) -> SafeString:
    return _plain([line.format(unit) for line in WITHDRAWN])


def badge_absent() -> SafeString:
    """The same for a record that never was and for one that is out of sight."""
    return _plain(list(ABSENT))


def _plain(lines):
    return mark_safe(badge(lines, ". ".join(lines)))
