"""The document of one or more versions, ready for the typesetter."""
from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from django.utils.translation import get_language

from core.words.said import said
from teardowns.models import Publication
from teardowns.presenting.citation import version_address
from teardowns.presenting.record_foot import digest_text
from teardowns.services.public_versions import shown_assessments
from teardowns.typesetting.typeset import NOTE as MISSING_LETTERS
from teardowns.writing.render import visible

from .comparison import comparison
from .photos import Reading
from .unit_record import Printed, unit_record

KEYWORDS = ["teardown", "mains charger", "one unit examined"]
PAGES = "1 of 1"                 # this page and all pages, as the typesetter counts


def document_of(versions: Sequence[Publication]) -> tuple[dict[str, Any], dict[str, Reading]]:
    """What `typeset` takes, for one version or for two to six side by side."""
    if len(versions) == 1:
        return _one(unit_record(versions[0]))
    return _side_by_side(versions)


def _one(printed: Printed):
    publication = printed.publication
    digest = digest_text(shown_assessments(publication)[0].evidence_digest)
    running = {"left": f"Underplate · {said('teardown record of one unit examined')}",
               "right": said(f"Unit {publication.unit_id} · version {publication.number}"),
               "foot": f"{version_address(publication)} · {said('evidence')} {digest}"}
    title = (f"{visible(publication.title)}: "
             f"{said(f'teardown record, unit {publication.unit_id}')}")
    return _document(title, [publication], running, printed.blocks), printed.pictures


def _side_by_side(versions):
    blocks, pictures, address = comparison(versions)
    units = ", ".join(said(f"{one.unit_id} (version {one.number})") for one in versions)
    running = {"left": f"Underplate · {said('units examined, side by side')}",
               "right": f"{said('Units')} {units}", "foot": address}
    title = f"{said('Teardown records side by side: units')} {units}"
    return _document(title, versions, running, blocks), pictures


def _document(title, versions, running, blocks):
    authors = dict.fromkeys(visible(one.unit.contributor.get_username()) for one in versions)
    return {"meta": {"title": title, "author": list(authors), "keywords": [*map(said, KEYWORDS)],
                     "date": _parts(max(_moment(one) for one in versions)),
                     "language": get_language() or "en", "pages": said(PAGES)},
            "missing": said(MISSING_LETTERS), "running": running, "blocks": blocks}


def _moment(publication: Publication) -> datetime:
    """When its numbers came to stand: no clock of today's, so that the bytes are the same again."""
    return max(publication.published_at, shown_assessments(publication)[0].created_at)


def _parts(moment: datetime) -> list[int]:
    return [moment.year, moment.month, moment.day, moment.hour, moment.minute, moment.second]
