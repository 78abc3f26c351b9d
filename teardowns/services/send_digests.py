"""One e-mail a day with what is new, to each person who wants it.

A digest is made in one transaction with the notices that go into it, and sent after. It is safe to
run twice, also at once: one that waits is taken by whoever is first, and what could not be sent is
sent by a later run, under the same Message-ID, so that a mail program knows a second copy.
"""
from __future__ import annotations

import logging
from dataclasses import dataclass
from datetime import timedelta
from smtplib import SMTPException
from urllib.parse import urlsplit

from django.conf import settings
from django.core.mail import EmailMessage
from django.core.signing import BadSignature, Signer
from django.db import IntegrityError, transaction
from django.db.models import F, Q, QuerySet
from django.urls import reverse
from django.utils import timezone, translation

from core.accounts.models import User
from core.words.said import said
from teardowns.models import Digest, DigestChoice, DigestSetting, Notice

logger = logging.getLogger(__name__)
BETWEEN = timedelta(hours=20)         # a daily run that is late one day is not skipped the next
TAKEN = timedelta(minutes=10)         # after which another run believes that the first one died
MOST_LINES = 60
signer = Signer(salt="teardowns.digest")


@dataclass(frozen=True)
class Sent:
    sent: int
    failed: int


def send_digests() -> Sent:
    """Make and send what is due."""
    now = timezone.now()
    for person in _due(now):
        _make(person, now)
    outcomes = [_send(pk) for pk in _waiting(now).values_list("pk", flat=True)]
    return Sent(outcomes.count(True), outcomes.count(False))


def _due(now) -> QuerySet[User]:
    """Who wants an e-mail, may have one, had none lately, and was told something not yet sent."""
    fresh = Notice.objects.unread().filter(digest=None).order_by().values("person")
    had = Digest.objects.filter(
        Q(sent_at=None) | Q(made_at__gt=now - BETWEEN)).order_by().values("person")
    return User.objects.filter(
        pk__in=fresh, is_active=True, suspended_at=None, email_verified_at__isnull=False,
    ).exclude(email="").exclude(digest_setting__every=DigestChoice.NEVER).exclude(pk__in=had)


def _make(person, now):
    try:
        with transaction.atomic():
            digest = Digest.objects.create(person=person, made_at=now)
            Notice.objects.filter(person=person, digest=None).unread().update(digest=digest)
    except IntegrityError:
        pass                          # another run made it in between


def _waiting(now):
    free = Q(taken_until=None) | Q(taken_until__lt=now)
    return Digest.objects.filter(free, sent_at=None).order_by("pk")


def _send(pk):
    """True when it went out, False when it could not, None when there was nothing to do."""
    now = timezone.now()
    taken = _waiting(now).filter(pk=pk).update(taken_until=now + TAKEN,
                                               attempts=F("attempts") + 1)
    if not taken:
        return None
    digest = Digest.objects.select_related("person").get(pk=pk)
    notices = list(told_in(digest))
    if not notices or not _wants(digest.person):
        return _done(digest, None)
    try:
        digest_mail(digest, notices).send()
    except (SMTPException, OSError, ValueError):       # of the way, or of the address
        logger.exception("digest %s could not be sent; a later run tries again", pk)
        Digest.objects.filter(pk=pk).update(taken_until=None)
        return False
    return _done(digest, True)


def _done(digest, outcome):
    Digest.objects.filter(pk=digest.pk).update(sent_at=timezone.now(), taken_until=None)
    return outcome


def _wants(person):
    chosen = DigestSetting.objects.filter(person=person).values_list("every", flat=True).first()
    return person.in_good_standing and person.email and chosen != DigestChoice.NEVER


def told_in(digest: Digest) -> QuerySet[Notice]:
    """Its notices, the oldest first: what was read meanwhile, or is hidden by now, is left out."""
    shown = Q(unit=None) | Q(unit__quarantined_at=None) | Q(unit__contributor=digest.person_id)
    return digest.notices.unread().filter(shown).select_related("unit").order_by("pk")


def digest_mail(digest: Digest, notices: list[Notice]) -> EmailMessage:
    """The e-mail as text in the language of who gets it, with the headers by which a mail program
    ends it (RFC 2369, RFC 8058)."""
    with translation.override(digest.person.language or settings.LANGUAGE_CODE):
        return _mail(digest, notices)


def _mail(digest, notices):
    stop = f"{settings.SITE_URL}{reverse('digest_stop', args=[signer.sign(str(digest.person_id))])}"
    count = len(notices)
    subject = f"[Underplate] {said('1 new notice' if count == 1 else f'{count} new notices')}"
    host = urlsplit(settings.SITE_URL).hostname or "localhost"
    return EmailMessage(subject, _text(digest.person, notices, stop), to=[digest.person.email],
                        headers={
        "Message-ID": f"<digest-{digest.pk}@{host}>", "Auto-Submitted": "auto-generated",
        "List-Unsubscribe": f"<{stop}>", "List-Unsubscribe-Post": "List-Unsubscribe=One-Click"})


def _text(person, notices, stop):
    lines = [said(f"Hello {person.get_username()},"), "", said("since the last message:"), ""]
    for notice in notices[:MOST_LINES]:
        lines += [f"- {notice_line(notice)}", f"  {settings.SITE_URL}{notice_path(notice)}"]
    if len(notices) > MOST_LINES:
        lines += [said(f"- and {len(notices) - MOST_LINES} more")]
    lines += ["", said(f"All of them: {settings.SITE_URL}{reverse('notices')}"),
              said(f"No more such messages, without signing in: {stop}"), ""]
    return "\n".join(lines)


def notice_line(notice: Notice) -> str:
    """What happened, on one line: "A new version is public: Veltrice VQ-45 (version 2)"."""
    title = notice.unit.title if notice.unit else ""
    told = said(notice.told)
    words = " ".join(filter(None, (title, f"({told})" if title and told else told)))
    return " ".join((said(notice.get_kind_display()) + (f": {words}" if words else "")).split())


def notice_path(notice: Notice) -> str:
    if notice.address:
        return notice.address
    return notice.unit.get_absolute_url() if notice.unit else reverse("notices")


def stop_digests(token: str) -> User | None:
    """Whoever the signed token names gets no more digests; None for a token that is not ours."""
    person = digest_person(token)
    if person is not None:
        choose_digest(person=person, every=DigestChoice.NEVER)
    return person


def digest_person(token: str) -> User | None:
    try:
        return User.objects.filter(pk=signer.unsign(token)).first()
    except (BadSignature, ValueError):
        return None


def choose_digest(*, person: User, every: str) -> None:
    DigestSetting.objects.update_or_create(person=person,
                                           defaults={"every": DigestChoice(every)})
