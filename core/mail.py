"""Messages that go out now, or as soon as the mail server takes them: none is lost.

What could not be sent waits in the database, sealed, for it may hold a link that opens an account.
The worker tries again; `Message-ID` stays the same, so that a mail program knows a second copy.
"""
from __future__ import annotations

import json
import logging
from dataclasses import dataclass
from datetime import timedelta
from email.utils import make_msgid
from smtplib import SMTPException, SMTPRecipientsRefused
from urllib.parse import urlsplit

from django.conf import settings
from django.core.mail import EmailMultiAlternatives, get_connection
from django.core.mail.backends.base import BaseEmailBackend
from django.core.mail.message import EmailAlternative, EmailMessage
from django.db.models import F, Q, QuerySet
from django.utils import timezone

from core.models import Letter
from core.sealed import box

logger = logging.getLogger(__name__)
PATIENCE = 5                            # s for which somebody waits for the mail server
TAKEN = timedelta(minutes=10)           # after which another run believes that the first one died
GIVEN_UP = timedelta(days=3)            # as long as the links in it work
AWAY = (SMTPException, OSError)
PURPOSE = "letter"


class Lasting(BaseEmailBackend):
    """Sends by the settings' backend; what that cannot send now is kept."""

    def send_messages(self, email_messages):
        for message in email_messages:
            message.extra_headers.setdefault("Message-ID", _message_id())
            try:
                get_connection(timeout=PATIENCE).send_messages([message])
            except AWAY:
                logger.exception("a message could not be sent; the worker tries again")
                keep(message)
        return len(email_messages)


@dataclass(frozen=True)
class Sent:
    sent: int
    waiting: int
    given_up: int


def keep(message: EmailMessage) -> Letter:
    said = {"subject": str(message.subject), "body": str(message.body),
            "from_email": message.from_email, "to": list(message.to),
            "headers": {name: str(value) for name, value in message.extra_headers.items()},
            "alternatives": [list(each) for each in getattr(message, "alternatives", ())]}
    return Letter.objects.create(sealed=box(PURPOSE).encrypt(json.dumps(said).encode()).decode())


def send_letters() -> Sent:
    """Send what waits, the oldest first, until the mail server fails. Safe to run twice at once."""
    sent = given_up = 0
    for letter in _waiting():
        if not _take(letter):
            continue
        try:
            get_connection().send_messages([_opened(letter)])
            sent += 1
        except SMTPRecipientsRefused:
            logger.warning("letter %s: nobody takes messages at its address", letter.pk)
            given_up += 1
        except AWAY:
            if letter.made_at > timezone.now() - GIVEN_UP:
                logger.exception("letter %s could not be sent; a later run tries again", letter.pk)
                Letter.objects.filter(pk=letter.pk).update(taken_until=None)
                break
            logger.error("letter %s is given up", letter.pk)
            given_up += 1
        letter.delete()
    return Sent(sent, _waiting().count(), given_up)


def _waiting() -> QuerySet[Letter]:
    free = Q(taken_until=None) | Q(taken_until__lt=timezone.now())
    return Letter.objects.filter(free).order_by("pk")


def _take(letter: Letter) -> bool:
    return bool(_waiting().filter(pk=letter.pk).update(
        taken_until=timezone.now() + TAKEN, attempts=F("attempts") + 1))


def _opened(letter: Letter) -> EmailMessage:
    said = json.loads(box(PURPOSE).decrypt(letter.sealed.encode()))
    said["alternatives"] = [EmailAlternative(*each) for each in said["alternatives"]]
    return EmailMultiAlternatives(**said)


def _message_id() -> str:
    return make_msgid(domain=urlsplit(settings.SITE_URL).hostname or "localhost")
