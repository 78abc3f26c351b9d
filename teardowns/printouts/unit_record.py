"""One version of a record on paper: its page's parts, its working, its terms and digests."""
from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.contrib.auth.models import AnonymousUser
from django.template.loader import render_to_string

from teardowns.models import Publication, Unit
from teardowns.presenting.citation import citation_of, in_text, version_address
from teardowns.presenting.evidence_called import called_in
from teardowns.presenting.licence_lines import UNSTATED, licence_rows, licences_of
from teardowns.presenting.now_and_then import now_and_then
from teardowns.presenting.replies_shown import unit_replies
from teardowns.presenting.unit_sheet import unit_sheet
from teardowns.presenting.version_line import version_line
from teardowns.presenting.workings import workings
from teardowns.services.active_rulebook import rulebook_beside
from teardowns.services.confirmations import confirmations_shown
from teardowns.services.shown_unit import Shown, shown_unit
from teardowns.typesetting.blocks import Block, blocks

from .ink import site_ink
from .photos import Reading, printed_photos


@dataclass(frozen=True)
class Printed:
    """What is set for one version."""

    publication: Publication
    blocks: list[Block]
    pictures: dict[str, Reading]


def unit_record(publication: Publication, *, template: str = "teardowns/printed_record.html",
                with_working: bool = True) -> Printed:
    """Raises Http404 where it is not public any more."""
    pk, number = publication.unit_id, publication.number
    shown = shown_unit(AnonymousUser(), pk, str(number), Unit.objects.with_active_set())
    names = called_in(shown.rows)
    photos, files = printed_photos(shown.thawed, shown.live, names)
    context = _context(shown, names) | {"photos": photos}
    if with_working and shown.assessment:
        context["workings"] = workings(shown.unit, shown.document, shown.assessment,
                                       rulebook_beside(shown.live))
    html = render_to_string(template, context)
    return Printed(shown.publication, blocks(html, site_ink(), {name: name for name in files}),
                   files)


def _context(shown: Shown, names) -> dict[str, Any]:
    report = shown.assessment.payload if shown.assessment else None
    findings = (report or {}).get("safety", {}).get("findings", ())
    called = names | {one["scenario"]: one["title"] for one in findings}
    reports = [one and one.payload for one in (shown.assessment, shown.with_rest)]
    citation = citation_of(shown.publication, shown.assessment)
    return {
        **unit_sheet(shown.unit, shown.assessment, shown.rows, confirmations_shown(shown)),
        **unit_replies(shown.live, called),
        "publication": shown.publication, "published": f"{shown.publication.published_at:%Y-%m-%d}",
        "version": version_line(shown.live, shown.publication, shown.newest, *reports),
        "now_and_then": shown.is_newest and now_and_then(shown.publication),
        "citation": citation, "cited": in_text(citation),
        "address": version_address(shown.publication),
        "licences": licence_rows(licences_of(shown.live)), "unstated": UNSTATED,
    }
