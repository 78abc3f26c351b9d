"""A moderator shows a comment that waited, or removes one that breaks a rule."""
from __future__ import annotations

from django.db import transaction
from django.urls import reverse
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from teardowns import access
from teardowns.models import Comment, CommentState, Decision, Statement
from teardowns.workflow import NotNow

from .notify import notify
from .state_reasons import give_reasons, traces
from .write_comment import ALIVE, tell_of

MEANWHILE = "It was edited since you read it. Read it once more, then decide."


@transaction.atomic
def release_comment(*, moderator: User, pk: int, version: int) -> Comment:
    """Show a comment that waited. version : as it was read. Raises Http404 or NotNow."""
    comment = access.comment_to_moderate(moderator, pk, Comment.objects.select_for_update())
    if comment.state != CommentState.HELD:
        raise NotNow("This comment does not wait any more: load the page again.")
    if comment.version != version:
        raise NotNow(MEANWHILE)
    _change(comment, moderator, CommentState.SHOWN)
    tell_of(comment)
    notify([comment.author_id], "comment_shown", unit=comment.unit_id, subject=comment.subject,
           address=comment.get_absolute_url(), event=comment.subject)
    record(moderator, "comment_released", unit=comment.unit_id, subject=comment.subject)
    return comment


@transaction.atomic
def remove_comment(*, moderator: User, pk: int, code: str, facts: str) -> Statement:
    """Take it out of sight, with a statement of reasons. Raises Http404, NotNow or NoReason."""
    comment = access.comment_to_moderate(moderator, pk, Comment.objects.select_for_update())
    if comment.state not in ALIVE:
        raise NotNow("This comment was taken back or removed already.")
    statement = give_reasons(
        decision=Decision.COMMENT_REMOVED, code=code, facts=facts, subject=comment.subject,
        unit=comment.unit, addressee=comment.author, by=moderator)
    comment.removal_reason, comment.closed_at = statement.rule, timezone.now()
    _change(comment, moderator, CommentState.REMOVED)
    notify([comment.author_id], "comment_removed", unit=comment.unit_id, subject=comment.subject,
           words=statement.rule, address=reverse("statement", args=[statement.uid]),
           event=comment.subject)
    record(moderator, "comment_removed", unit=comment.unit_id, subject=comment.subject,
           reason=statement.rule, **traces(statement))
    return statement


def _change(comment, moderator, state):
    comment.state, comment.moderator = state, moderator
    comment.version += 1
    comment._history_user = moderator
    comment.save()
