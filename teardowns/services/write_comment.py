"""Say something about a unit, a row of its evidence, a part or a family; change one's own words.

First words of an account wait for a moderator: nothing is public, or told to anybody, before a
person looked (common practice against spam, no source).
"""
from __future__ import annotations

from datetime import timedelta
from typing import Any

from django.db import transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import Role, User
from core.audit.record import record
from core.stale import Stale
from teardowns import access
from teardowns.models import BoardFamily, Comment, CommentState, Part, Unit
from teardowns.models.discussion import kind_of
from teardowns.workflow import NotNow

from .notify import notify
from .watch import watchers_of

LONGEST = 4000
LOOKED_AT_FIRST = 5                          # comments of an account that a moderator reads first
EDITABLE = timedelta(minutes=15)
SAID_ALREADY = timedelta(hours=1)
REPEATED = timedelta(days=30)
CLOSED = "This comment was taken back or removed, so its words can no longer be changed."
TOO_LATE = ("Comments can be changed for 15 minutes, for others may have answered by now. Take it "
            "back and write a new one, or add another.")
TWICE = "You have written just this here already. There it is, further down this page."
ALIVE = (CommentState.HELD, CommentState.SHOWN)


@transaction.atomic
def write_comment(*, author: User, thing: Unit | Part | BoardFamily, text: str,
                  ref: str = "") -> Comment:
    """ref : of a row of the unit's evidence, "" for the whole. Raises Http404 or NotNow."""
    if not access.may_comment(author, thing):
        raise Http404("You cannot comment on this.")
    is_internal = isinstance(thing, Unit) and not thing.is_public
    _refuse_twice(author, thing, ref, text)
    comment = Comment(author=author, text=text, ref=ref, is_internal=is_internal,
                      state=_first_state(author, text, is_internal), written_at=timezone.now(),
                      **{kind_of(thing): thing})
    _save(comment, author)
    if comment.state == CommentState.SHOWN:
        tell_of(comment)
    record(author, "comment_written", unit=comment.unit_id, subject=comment.subject,
           state=comment.state)
    return comment


def _save(comment, person):
    comment._history_user = person
    comment.save()


def _refuse_twice(author, thing, ref, text):
    since = timezone.now() - SAID_ALREADY
    if Comment.objects.about(thing).filter(author=author, ref=ref, text=text, state__in=ALIVE,
                                           written_at__gt=since).exists():
        raise NotNow(TWICE)


def _first_state(author, text, is_internal, pk=None):
    """Held while the account is new, or says what it said elsewhere."""
    if is_internal or author.role in (Role.REVIEWER, Role.MODERATOR):
        return CommentState.SHOWN
    others = author.comments.exclude(pk=pk).filter(is_internal=False)
    looked_at = others.filter(state=CommentState.SHOWN).count()
    repeats = others.filter(text=text, written_at__gt=timezone.now() - REPEATED).exists()
    return CommentState.HELD if looked_at < LOOKED_AT_FIRST or repeats else CommentState.SHOWN


def tell_of(comment: Comment) -> None:
    """Tell the author of the work, who watches the thing and who spoke in the same place before.

    Of what was said while a unit is not public, only who is at work on it hears.
    """
    unit: Any = comment.unit
    people = {unit.contributor_id, unit.work.author_id} if unit else set()
    if comment.is_internal:
        people |= set(unit.reviews.filter(closed_at=None).values_list("reviewer", flat=True))
    else:
        people |= _spoke_before(comment)
        people |= set(watchers_of(comment.thing).values_list("pk", flat=True))
    by = f"by {comment.author.get_username()}"
    notify(people, "comment", actor=comment.author, unit=unit, subject=comment.subject,
           words=by if unit else f"{by}, on “{comment.thing}”",
           address=comment.get_absolute_url(), event=comment.subject)


def _spoke_before(comment):
    said = Comment.objects.about(comment.thing).filter(
        ref=comment.ref, state=CommentState.SHOWN, is_internal=False, pk__lt=comment.pk)
    return set(said.order_by().values_list("author", flat=True))


@transaction.atomic
def edit_comment(*, author: User, pk: int, version: int, text: str) -> Comment:
    """Other words within a quarter of an hour. Raises Http404, NotNow or Stale.

    version : the one that the author saw
    """
    comment = access.comment_of_own(author, pk, Comment.objects.select_for_update())
    refuse_late(comment)
    if comment.version != version:
        raise Stale({"text": comment.text}, comment.version)
    if comment.text == text:
        return comment
    comment.text, comment.edited_at = text, timezone.now()
    if comment.state == CommentState.SHOWN:
        comment.state = _first_state(author, text, comment.is_internal, comment.pk)
    comment.version += 1
    _save(comment, author)
    record(author, "comment_edited", unit=comment.unit_id, subject=comment.subject,
           state=comment.state)
    return comment


def refuse_late(comment: Comment) -> None:
    """Raise NotNow where the words cannot be changed any more."""
    if comment.state not in ALIVE:
        raise NotNow(CLOSED)
    if timezone.now() - comment.written_at > EDITABLE:
        raise NotNow(TOO_LATE)


def can_change(comment: Comment) -> bool:
    try:
        refuse_late(comment)
    except NotNow:
        return False
    return True


@transaction.atomic
def retract_comment(*, author: User, pk: int) -> Comment:
    """Take one's own words back; a line says that something stood there. Raises Http404, NotNow."""
    comment = access.comment_of_own(author, pk, Comment.objects.select_for_update())
    if comment.state not in ALIVE:
        raise NotNow("This comment was taken back or removed already.")
    comment.state, comment.closed_at = CommentState.RETRACTED, timezone.now()
    comment.version += 1
    _save(comment, author)
    record(author, "comment_retracted", unit=comment.unit_id, subject=comment.subject)
    return comment
