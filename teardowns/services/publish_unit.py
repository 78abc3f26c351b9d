"""Make what was reviewed public: a numbered version that nothing alters afterwards."""
from __future__ import annotations

from typing import Any

from django.db import transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from teardowns import access
from teardowns.models import (
    Component,
    Correction,
    NoticeKind,
    Photo,
    PrintedText,
    Publication,
    Recording,
    Unit,
)
from teardowns.workflow import NotNow

from .accept_parts import accept_cited_parts
from .assess_units import assess_units
from .export_unit import unit_document
from .list_units import list_units
from .listing_clock import hold_clock
from .move_work import locked_unit, log_move, shift
from .notify import notify
from .review_state import review_state
from .thaw import freeze
from .watch import watchers_of

IN_QUARANTINE = ("It is out of sight until somebody has looked into it: that is decided first, "
                 "then it can be published.")
LISTED = ("title", "maker", "model", "kind", "channel")


@transaction.atomic
def publish_unit(*, moderator: User, unit_pk: int, note: str = "") -> Publication:
    """The next version of a unit, from its rows as they stand. Raises Http404 or NotNow.

    It takes a review of every row that is asked for by somebody else than its author; a moderator
    has no part in the work that they publish.
    """
    unit = locked_unit(unit_pk)
    if not access.may_decide(moderator, unit):
        raise Http404("No such unit to moderate.")
    if unit.quarantined_at is not None:
        raise NotNow(IN_QUARANTINE)
    state = review_state(unit)
    if not state.is_ready:
        raise NotNow(state.lacking)
    moved = shift(unit, "publish", moderator, note)
    publication = keep_version(unit, moderator, note, moved.correction)
    _tell(publication, moderator)
    log_move(moved, moderator, note, version=publication.number)
    return publication


def _tell(publication: Publication, moderator: User) -> None:
    """Who worked on it and who watches it hear of it."""
    unit, correction = publication.unit, publication.correction
    people = {unit.contributor_id, correction.author_id if correction else unit.contributor_id,
              *watchers_of(unit).values_list("pk", flat=True)}
    kind = NoticeKind.VERSION if publication.number > 1 else NoticeKind.PUBLISHED
    notify(people, kind, actor=moderator, unit=unit, words=publication.title,
           subject=f"publication/{publication.pk}", event=f"publication/{publication.pk}")


def keep_version(unit: Any, moderator: User, note: str = "",
                 correction: Correction | None = None, published_at: Any = None) -> Publication:
    """The publication of a locked unit whose state says published already."""
    now = published_at or timezone.now()
    hold_clock()              # before words of parts are indexed, on which others wait who hold it
    accept_cited_parts(unit, moderator)
    confirmed, = assess_units([unit], confirmed_only=True)
    everything, = assess_units([unit])
    publication = Publication.objects.create(
        unit=unit, number=_next_number(unit), document=unit_document(unit), frozen=freeze(unit),
        assessment=confirmed, assessment_all=everything, standing=confirmed,
        standing_all=everything, correction=correction, note=note, moderator=moderator,
        published_at=now, words=_words(unit), **{name: getattr(unit, name) for name in LISTED})
    for files in (Photo, Recording):
        files.objects.filter(unit=unit, published_at=None, set_aside=False).update(published_at=now)
    unit.publication, unit.published_at = publication, unit.published_at or now
    unit._history_user, unit._change_reason = moderator, f"Version {publication.number}"
    unit.save(update_fields=["publication", "published_at", "changed_at"])
    list_units([unit.pk])
    return publication


def _next_number(unit: Unit) -> int:
    newest = unit.publications.order_by("-number").values_list("number", flat=True).first()
    return (newest or 0) + 1


def _words(unit: Unit) -> str:
    """What a search looks into besides the name: printed texts and markings, line by line."""
    found = [*PrintedText.objects.filter(unit=unit).order_by("pk").values_list("text", flat=True),
             *Component.objects.filter(unit=unit).order_by("pk").values_list("marking", flat=True)]
    return "\n".join(filter(None, found))
