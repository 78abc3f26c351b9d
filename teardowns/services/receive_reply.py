"""A maker's or seller's statement beside what it answers: received, looked at, shown, renewed.

Whoever sends it says for whom they speak and how that can be checked; a moderator who has no part
in the record checks it. Its words are never altered: other words are another version.
"""
from __future__ import annotations

from django.db import transaction
from django.db.models import Q
from django.http import Http404
from django.urls import reverse
from django.utils import timezone

from core.accounts.models import User
from core.audit.record import record
from core.stale import Stale
from teardowns import access
from teardowns.models import (
    Decision,
    MakerAccount,
    Reply,
    ReplyState,
    ReplyVersion,
    Statement,
    Unit,
)
from teardowns.workflow import NotNow

from .notify import notify
from .state_reasons import give_reasons, traces
from .watch import watchers_of

LONGEST = 8000
HAVE_ONE = ("You have sent a reply about this already. Open it below and send other words as its "
            "next version.")
STILL_WAITS = ("Your last version still waits for a moderator, who looks at it within seven days. "
               "Send other words after that.")
DECIDED = "This reply was decided already. Load the page again to see where it stands."


@transaction.atomic
def receive_reply(*, author: User, unit_pk: int, text: str, author_name: str, check_hint: str,
                  about: str = "", language: str = "en", disputes: bool = False) -> Reply:
    """about : a ref of the unit's evidence or a finding's scenario, "" for the whole record.

    Raises Http404 where the unit is not public, and NotNow.
    """
    unit = Unit.objects.select_for_update().published().filter(pk=unit_pk).first()
    if unit is None or not author.in_good_standing:
        raise Http404("No such record to reply to.")
    earlier = Reply.objects.filter(unit=unit, entered_by=author, about=about)
    if earlier.exclude(state=ReplyState.DECLINED).exists():
        raise NotNow(HAVE_ONE)
    reply = Reply.objects.create(
        unit=unit, about=about, author_name=author_name, check_hint=check_hint,
        entered_by=author, received_at=timezone.now())
    _add(reply, 1, text, language, disputes)
    record(author, "reply_received", unit=unit, subject=reply.subject, version=1)
    return reply


@transaction.atomic
def renew_reply(*, author: User, reply_pk: int, version: int, text: str, language: str = "en",
                disputes: bool = False) -> ReplyVersion:
    """Other words, shown once a moderator has looked at them; until then the last ones stand.

    version : of the reply's row as the author saw it. Raises Http404, NotNow or Stale.
    """
    reply = Reply.objects.select_for_update().filter(pk=reply_pk, entered_by=author).first()
    if reply is None:
        raise Http404("No such reply of yours.")
    last = reply.versions.latest("number")
    if last.state == ReplyState.WAITING:
        raise NotNow(STILL_WAITS)
    if reply.version != version:
        raise Stale({"text": last.text, "language": last.language}, reply.version)
    made = _add(reply, last.number + 1, text, language, disputes)
    reply.version += 1
    reply.save(update_fields=["version"])
    record(author, "reply_received", unit=reply.unit_id, subject=reply.subject,
           version=made.number)
    return made


def _add(reply, number, text, language, disputes):
    return ReplyVersion.objects.create(
        reply=reply, number=number, text=text, language=language, disputes=disputes,
        received_at=timezone.now())


def verified_as(reply: Reply) -> MakerAccount | None:
    """What is on record of for whom the author speaks, in force for this unit."""
    return MakerAccount.objects.filter(
        Q(unit=reply.unit) | Q(maker__iexact=reply.unit.maker, maker__gt=""),
        person=reply.entered_by_id, revoked_at=None).first()


@transaction.atomic
def verify_reply(*, moderator: User, version_pk: int, name: str, checked_how: str,
                 whole_maker: bool = False) -> ReplyVersion:
    """Show these words: the author speaks for whom they say. Raises Http404 or NotNow.

    name : of whom they speak for, as it is shown; checked_how : kept for moderators
    whole_maker : for all units of this unit's maker, not for this unit alone
    """
    version = _to_decide(moderator, version_pk)
    reply = version.reply
    if not checked_how.strip() and verified_as(reply) is None:
        raise NotNow("Write how it was checked for whom the person speaks.")
    if verified_as(reply) is None:
        _keep_account(reply, moderator, name, checked_how, whole_maker)
    _decide(version, moderator, ReplyState.VERIFIED)
    reply.state, reply.author_name = ReplyState.VERIFIED, name
    reply.version += 1
    reply.save(update_fields=["state", "author_name", "version"])
    _tell(version, moderator)
    record(moderator, "reply_verified", unit=reply.unit_id, subject=reply.subject,
           version=version.number, disputes=version.disputes)
    return version


def _keep_account(reply, moderator, name, checked_how, whole_maker):
    maker = reply.unit.maker if whole_maker else ""
    MakerAccount.objects.create(
        person=reply.entered_by, maker=maker, unit=None if maker else reply.unit, name=name,
        checked_how=checked_how.strip(), verified_by=moderator, verified_at=timezone.now())


def _tell(version, moderator):
    reply, event = version.reply, f"{version.reply.subject}/{version.number}"
    words = f"of {reply.author_name}, version {version.number}"
    told = {"unit": reply.unit, "subject": reply.subject, "words": words, "event": event,
            "address": reply.get_absolute_url()}
    shown = f"version {version.number} of {reply.author_name} stands beside the record now"
    notify([reply.entered_by_id], "reply_decided", actor=moderator, **told | {"words": shown})
    unit = reply.unit
    people = {unit.contributor_id, *watchers_of(unit).values_list("pk", flat=True)}
    notify(people - {reply.entered_by_id}, "reply", actor=moderator, **told)


@transaction.atomic
def decline_reply(*, moderator: User, version_pk: int, code: str, facts: str) -> Statement:
    """These words are not shown; a version that stands keeps standing.

    Raises Http404, NotNow or NoReason.
    """
    version = _to_decide(moderator, version_pk)
    reply = version.reply
    statement = give_reasons(
        decision=Decision.REPLY_DECLINED, code=code, facts=facts, subject=reply.subject,
        unit=reply.unit, addressee=reply.entered_by, by=moderator)
    _decide(version, moderator, ReplyState.DECLINED, statement.rule)
    if reply.state == ReplyState.WAITING:
        reply.state = ReplyState.DECLINED
    reply.version += 1
    reply.save(update_fields=["state", "version"])
    notify([reply.entered_by_id], "reply_decided", unit=reply.unit, subject=reply.subject,
           words=f"it is not shown: {statement.rule}",
           address=reverse("statement", args=[statement.uid]),
           event=f"{reply.subject}/{version.number}")
    record(moderator, "reply_declined", unit=reply.unit_id, subject=reply.subject,
           version=version.number, **traces(statement))
    return statement


def _to_decide(moderator, version_pk):
    """The waiting version, locked, for a moderator who has no part in it."""
    version = access.reply_version_to_moderate(
        moderator, version_pk, ReplyVersion.objects.select_for_update(of=("self",)))
    if version.state != ReplyState.WAITING:
        raise NotNow(DECIDED)
    return version


def _decide(version, moderator, state, reason=""):
    version.state, version.decided_by = state, moderator
    version.decided_at, version.decision_reason = timezone.now(), reason
    version.save(update_fields=["state", "decided_by", "decided_at", "decision_reason"])


@transaction.atomic
def answer_dispute(*, moderator: User, version_pk: int, answer: str) -> ReplyVersion:
    """What came of the review that the reply asked for; the mark on the record goes.

    Raises Http404 or NotNow.
    """
    version = access.reply_version_to_moderate(
        moderator, version_pk, ReplyVersion.objects.select_for_update(of=("self",)))
    if version.state != ReplyState.VERIFIED or not version.disputes or version.answered_at:
        raise NotNow("There is no open dispute here: load the page again.")
    if not answer.strip():
        raise NotNow("Write what was looked at again and what came of it.")
    version.answer, version.answered_at = answer.strip(), timezone.now()
    version.answered_by = moderator
    version.save(update_fields=["answer", "answered_at", "answered_by"])
    reply = version.reply
    notify([reply.entered_by_id, reply.unit.contributor_id], "reply_decided", actor=moderator,
           unit=reply.unit, subject=reply.subject, words="the dispute was looked into",
           address=reply.get_absolute_url(), event=f"{reply.subject}/{version.number}/answered")
    record(moderator, "dispute_answered", unit=reply.unit_id, subject=reply.subject,
           version=version.number)
    return version
