"""A record in a few words, for where only a few fit: about the unit examined, never its maker."""
from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.conf import settings
from django.urls import reverse
from django.utils.text import slugify

from teardowns.engine.safety_words import HURTS, UNMEASURED, summary, unrecorded
from teardowns.writing.render import visible

from .numbers import number, span, with_unit
from .wording import answer_in_short

NO_CLAIM = "No power claim was judged"
NOT_ASSESSED = "Not assessed yet"
NOT_JUDGED = "Insulation was not judged"


def verdict_in_short(report: Mapping[str, Any] | None) -> str:
    """`The evidence does not support the printed claim of 45 W`, without a full stop."""
    if report is None:
        return NOT_ASSESSED
    if report["headline"] is None:
        return NO_CLAIM
    return answer_in_short(report["claims"][report["headline"]])


def safety_in_short(report: Mapping[str, Any] | None) -> str:
    """Stands beside every verdict on power: that a claim is met says nothing of the insulation."""
    safety = (report or {}).get("safety")
    if not safety:
        return NOT_JUDGED
    hurting = [one for one in safety["results"] if one["hazard"] in HURTS]
    short = sum(one["grade"] == "falls short" for one in hurting)
    undecided = sum(one["grade"] == "cannot tell" for one in hurting) + len(
        unrecorded(safety["results"]))
    meets = any(one["grade"] == "meets" for one in hurting)
    if not short and (not meets or summary(safety["results"])[0] == UNMEASURED):
        return f"Insulation: cannot tell, {undecided} not decided"
    if short:
        verb = "point falls short" if short == 1 else "points fall short"
        return f"Insulation: {short} {verb}, {undecided} not decided"
    return f"Insulation: none found short, {undecided} not decided" if undecided else (
        "Insulation: no recorded point falls short")


def capability_in_short(report: Mapping[str, Any] | None) -> str:
    """`about 17.0 W, 90 %: 14.9 to 20.2 W`; "" where no line of evidence speaks."""
    found = report and report["capability"]["low"]
    if not found:
        return ""
    interval = with_unit(span(found["low"], found["high"]), "W")
    return f"about {with_unit(number(found['median']), 'W')}, 90\u202f%: {interval}"


def readable_path(unit: int, title: str) -> str:
    """`/units/20-wall-charger-45-w/`; a title without Latin letters has the plain address."""
    words = slugify(visible(title))[:60].strip("-")
    return reverse("unit_by_title", args=[unit, words]) if words else (
        reverse("unit_detail", args=[unit]))


def page_about(publication: Any, report: Mapping[str, Any] | None, *, stands: bool
               ) -> dict[str, str]:
    """What the head of a record's page tells to who links to it; asks nothing.

    stands : whether the version is the one that stands; an older one is canonical by itself
    """
    name = "unit_detail" if stands else "unit_version"
    keys = [publication.unit_id] if stands else [publication.unit_id, publication.number]
    site, title = settings.SITE_URL, visible(publication.title)
    said = ". ".join((verdict_in_short(report), safety_in_short(report)))
    return {
        "canonical": site + reverse(name, args=keys), "title": title,
        "description": f"In the unit examined: {said[0].lower()}{said[1:]}.",
        "card": f"{site}{reverse('unit_card', args=[publication.unit_id])}?of={publication.pk}",
        "card_alt": f"{title}: {said}", "readable": site + readable_path(
            publication.unit_id, publication.title),
        "query": "" if stands else f"?version={publication.number}",
        "published": publication.published_at.isoformat(),
    }
