"""Keep words that moderators often need, or stop offering them."""
from __future__ import annotations

from django.db import IntegrityError, transaction
from django.http import Http404
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from core.stale import Stale
from teardowns.models import SavedReply
from teardowns.workflow import NotNow

SAME_TITLE = "There is a saved reply with this title: choose another, or change that one."


@transaction.atomic
def keep_saved_reply(*, moderator: User, title: str, text: str, code: str = "",
                     pk: int | None = None, seen: int | None = None) -> SavedReply:
    """pk : of the one that is changed, of which `seen` is the version. Raises Http404, Stale or
    NotNow."""
    reply = _locked(pk) if pk else SavedReply(author=moderator, version=0)
    if pk and reply.version != seen:
        raise Stale({"title": reply.title, "code": reply.code, "text": reply.text}, reply.version)
    reply.title, reply.text, reply.code = title.strip(), text.strip(), code
    reply.version += 1
    try:
        with transaction.atomic():
            reply.save()
    except IntegrityError:
        raise NotNow(SAME_TITLE) from None
    record(moderator, "saved_reply_kept", subject=f"saved_reply/{reply.pk}", version=reply.version)
    return reply


@transaction.atomic
def retire_saved_reply(*, moderator: User, pk: int) -> None:
    """It is offered no more; what was written with it stays. Raises Http404."""
    reply = _locked(pk)
    reply.retired_at = timezone.now()
    reply.save(update_fields=["retired_at"])
    record(moderator, "saved_reply_retired", subject=f"saved_reply/{reply.pk}")


def _locked(pk):
    reply = SavedReply.objects.select_for_update().filter(pk=pk, retired_at=None).first()
    if reply is None:
        raise Http404("No such saved reply.")
    return reply
