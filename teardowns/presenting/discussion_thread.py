"""Comments as a page prints them: words cleaned, or a line where they were taken away."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import Exists, OuterRef, Q
from django.utils.safestring import SafeString, mark_safe

from teardowns.models import Comment, CommentState, Publication, Source, Unit
from teardowns.writing import render

from .evidence_called import evidence_called
from .evidence_names import cited_rows
from .links import Links

GONE = "a row that is no longer there"
HIDDEN = "Hidden while a report about it is looked into."
RETRACTED = "Taken back by its author."
REMOVED = "Removed by a moderator: {}"
WAITS = "Waits for a moderator; until then its author and the moderators see it."
INTERNAL = "Said in review; seen by the contributor, reviewers at it and moderators."
TRUSTED_ROLES = ("reviewer", "moderator")


@dataclass(frozen=True, slots=True)
class ShownComment:
    pk: int
    anchor: str
    author: str
    role: str                # "contributor of this record", "reviewer", "moderator", or ""
    at: str                  # ISO, for <time>
    when: str                # "2026-11-26 05:12 UTC"
    edited: str              # the same, or ""
    html: SafeString         # cleaned; "" for a tombstone
    tombstone: str           # what stands in place of the words, or ""
    remarks: tuple[str, ...]
    about: str               # name of the row of evidence, or ""
    about_href: str
    is_own: bool
    may_change: bool         # the words can still be edited
    may_retract: bool
    may_moderate: bool
    is_held: bool


def moment(at: datetime) -> str:
    return f"{at:%Y-%m-%d %H:%M} UTC"


def with_trust(comments: Any) -> Any:
    """The comments with `author_published`: whether links of its author are links."""
    published = Unit.objects.published().filter(contributor=OuterRef("author"))
    return comments.select_related("author").annotate(
        author_published=Exists(published) | Q(author__role__in=TRUSTED_ROLES))


def evidence_refs(unit: Unit) -> dict[str, str]:
    """Names by ref of what can be commented on: of the version that stands, else of the rows."""
    if unit.publication_id is None or not unit.is_public:
        return evidence_called(unit)
    document = Publication.objects.values_list("document", flat=True).get(pk=unit.publication_id)
    printed = {f"printedtext/{row['key']}": f"printed text: {Source(row['source']).label}"
               for row in document["printed_texts"]}
    return {ref: row.name for ref, row in cited_rows(document).items()} | printed


def discussion_thread(comments: Iterable[Comment], reader: Any, thing: Any,
                      names: Mapping[str, str], *, moderates: bool,
                      editable: Mapping[int, bool]) -> list[ShownComment]:
    """Of comments from `with_trust`, in their order.

    names : by ref; editable : by pk, whether its words can still be changed by its author
    """
    return [_shown(one, reader, thing, names, moderates, editable.get(one.pk, False))
            for one in comments]


def _shown(comment, reader, thing, names, moderates, editable):
    tombstone = _tombstone(comment)
    is_own = comment.author_id == reader.pk
    is_alive = comment.state in (CommentState.HELD, CommentState.SHOWN)
    hidden_from = bool(tombstone) and not (moderates and is_alive)
    html = "" if hidden_from else render(comment.text, links=comment.author_published)
    return ShownComment(
        pk=comment.pk, anchor=f"comment-{comment.pk}",
        author="" if comment.state == CommentState.REMOVED else comment.author.get_username(),
        role=_role(comment, thing), at=comment.written_at.isoformat(),
        when=moment(comment.written_at),
        edited=moment(comment.edited_at) if comment.edited_at else "",
        html=mark_safe(html), tombstone=tombstone, remarks=_remarks(comment),
        about=_about(comment, names), about_href=_href(comment, names), is_own=is_own,
        may_change=is_own and editable, may_retract=is_own and is_alive,
        may_moderate=moderates and not is_own and is_alive,
        is_held=comment.state == CommentState.HELD)


def _tombstone(comment):
    if comment.state == CommentState.RETRACTED:
        return RETRACTED
    if comment.state == CommentState.REMOVED:
        return REMOVED.format(comment.removal_reason)
    return HIDDEN if comment.is_hidden else ""


def _remarks(comment):
    return tuple(filter(None, (WAITS if comment.state == CommentState.HELD else "",
                               INTERNAL if comment.is_internal else "")))


def _role(comment, thing):
    if comment.state == CommentState.REMOVED:
        return ""
    if isinstance(thing, Unit) and comment.author_id == thing.contributor_id:
        return "contributor of this record"
    return comment.author.role if comment.author.role in TRUSTED_ROLES else ""


def _about(comment, names):
    return names.get(comment.ref, GONE) if comment.ref else ""


def _href(comment, names):
    return Links(comment.unit_id).evidence(comment.ref) if comment.ref in names else ""
