"""One e-mail a digest: never twice, never lost, ended by one request."""
from datetime import timedelta
from smtplib import SMTPServerDisconnected
from urllib.parse import urlsplit

import pytest
from django.core import mail
from django.core.mail.backends.locmem import EmailBackend
from django.utils import timezone

from core.accounts.models import User
from teardowns.models import Digest, Notice, Unit
from teardowns.services.notify import notify, read_notices
from teardowns.services.send_digests import (
    Sent,
    choose_digest,
    digest_person,
    send_digests,
    stop_digests,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def told(alice, unit):
    notify([alice], "published", unit=unit, words="version 1", event="publication/1")
    return alice


def a_day_passes():
    Digest.objects.update(made_at=timezone.now() - timedelta(days=1))


def test_one_mail_tells_all_that_is_new_as_text(told, unit):
    notify([told], "comment", unit=unit, words="by bob", address="/x/#comment-1", event="comment/1")
    assert send_digests() == Sent(1, 0)
    message, = mail.outbox
    assert message.to == ["alice@cast.example"] and message.subject == "[Underplate] 2 new notices"
    assert "- Published: Veltrice VQ-45 (version 1)\n  http://localhost:8000/units/" in message.body
    assert "http://localhost:8000/x/#comment-1" in message.body
    assert message.content_subtype == "plain" and not getattr(message, "alternatives", [])


def test_it_is_written_in_the_language_of_who_gets_it(told, bob, unit):
    User.objects.filter(pk=told.pk).update(language="de")
    notify([told], "reply", unit=unit, words="the dispute was looked into", event="reply/1")
    notify([bob], "published", unit=unit)
    assert send_digests() == Sent(2, 0)
    mine, other = sorted(mail.outbox, key=lambda message: message.to)
    assert mine.subject == "[Underplate] 2 neue Nachrichten" and "Guten Tag alice," in mine.body
    assert "Veltrice VQ-45 (der Streitpunkt wurde untersucht)" in mine.body
    assert other.subject == "[Underplate] 1 new notice" and "Hello bob," in other.body


def test_what_a_person_wrote_stays_as_it_was_written(told, unit):
    User.objects.filter(pk=told.pk).update(language="de")
    notify([told], "correction", unit=unit, words="the dispute was looked into", event="c/1")
    send_digests()
    assert "(the dispute was looked into)" in mail.outbox[0].body


def test_sending_twice_sends_once(told):
    assert (send_digests(), send_digests()) == (Sent(1, 0), Sent(0, 0))
    assert len(mail.outbox) == 1


def test_there_is_at_most_one_a_day_and_the_next_holds_only_what_is_new(told, unit):
    send_digests()
    notify([told], "version", unit=unit, event="publication/2")
    assert send_digests() == Sent(0, 0)
    a_day_passes()
    send_digests()
    assert mail.outbox[1].subject == "[Underplate] 1 new notice"


def test_nothing_new_is_no_mail(told):
    read_notices(person=told)
    assert send_digests() == Sent(0, 0) and not mail.outbox


class Broken(EmailBackend):
    def send_messages(self, messages):
        raise SMTPServerDisconnected("the server went away")


def test_what_could_not_be_sent_is_sent_by_a_later_run(told, settings):
    plain = settings.EMAIL_BACKEND
    settings.EMAIL_BACKEND = f"{__name__}.Broken"
    assert send_digests() == Sent(0, 1) and not mail.outbox
    settings.EMAIL_BACKEND = plain
    assert send_digests() == Sent(1, 0) and Digest.objects.get().attempts == 2


def test_one_persons_failure_leaves_the_others_theirs(told, bob, unit):
    notify([bob], "published", unit=unit)
    User.objects.filter(pk=told.pk).update(email="not an address\nBcc: x@y.example")
    assert send_digests() == Sent(1, 1)
    assert [message.to for message in mail.outbox] == [["bob@cast.example"]]


def test_a_digest_that_another_run_is_sending_is_left_to_it(told):
    digest = Digest.objects.create(person=told, made_at=timezone.now(),
                                   taken_until=timezone.now() + timedelta(minutes=5))
    Notice.objects.update(digest=digest)
    assert send_digests() == Sent(0, 0)
    Digest.objects.update(taken_until=timezone.now() - timedelta(minutes=1))    # it died
    assert send_digests() == Sent(1, 0)


def test_what_was_read_or_hidden_meanwhile_is_left_out(told, bob, unit):
    notify([bob], "published", unit=unit)
    Unit.objects.update(quarantined_at=timezone.now())
    assert send_digests() == Sent(1, 0)          # its contributor may hear of it
    assert mail.outbox[0].to == ["alice@cast.example"]


@pytest.mark.parametrize("loss", [{"is_active": False}, {"email_verified_at": None}, {"email": ""},
                                  {"suspended_at": timezone.now()}])
def test_who_has_no_confirmed_address_or_no_standing_gets_none(told, loss):
    User.objects.update(**loss)
    assert send_digests() == Sent(0, 0) and not mail.outbox


def test_who_chose_never_gets_none_until_they_choose_otherwise(told):
    choose_digest(person=told, every="never")
    assert send_digests() == Sent(0, 0)
    choose_digest(person=told, every="daily")
    assert send_digests() == Sent(1, 0)


def test_a_mail_program_can_end_it_by_itself(told):
    # RFC 8058, 3.1: an https or http URI in List-Unsubscribe, and this exact List-Unsubscribe-Post.
    send_digests()
    headers = mail.outbox[0].extra_headers
    assert headers["List-Unsubscribe-Post"] == "List-Unsubscribe=One-Click"
    address = headers["List-Unsubscribe"].strip("<>")
    assert address in mail.outbox[0].body
    assert digest_person(urlsplit(address).path.rstrip("/").rpartition("/")[2]) == told


def test_a_token_of_somebody_else_ends_nothing(told):
    for token in ("", "1", f"{told.pk}:forged", "x" * 500, "a:b:c"):
        assert stop_digests(token) is None
    assert send_digests() == Sent(1, 0)


def test_words_cannot_forge_a_header_or_a_line(told, unit):
    Unit.objects.update(title="One\nBcc: x@y.example\n- Published: another")
    send_digests()
    said = mail.outbox[0].body
    assert "\nBcc" not in said and "\n- Published: another" not in said


def test_a_second_copy_bears_the_same_message_id(told, unit):
    send_digests()
    first = mail.outbox[0].extra_headers["Message-ID"]
    Digest.objects.update(sent_at=None)                  # it died after sending, before noting it
    send_digests()
    assert mail.outbox[1].extra_headers["Message-ID"] == first
