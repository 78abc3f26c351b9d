"""A message that the mail server does not take waits, sealed, and goes out later, once."""
from datetime import timedelta
from smtplib import SMTPRecipientsRefused, SMTPServerDisconnected

import pytest
from django.core import mail
from django.core.mail import EmailMultiAlternatives
from django.core.mail.backends.locmem import EmailBackend
from django.urls import reverse
from django.utils import timezone

from core.mail import GIVEN_UP, Lasting, Sent, send_letters
from core.models import Letter
from tests.core.doctor.found import bad

pytestmark = pytest.mark.django_db
LINK = "https://units.example/accounts/password/reset/key/1-abc/"


class Away(EmailBackend):
    def send_messages(self, messages):
        raise SMTPServerDisconnected("the server went away")


class Refusing(EmailBackend):
    def send_messages(self, messages):
        raise SMTPRecipientsRefused({"gone@cast.example": (550, b"no such person")})


@pytest.fixture
def backend(settings):
    """Sets which backend sends, or the one of the tests again."""
    plain = settings.EMAIL_BACKEND

    def chosen(kind=None):
        settings.EMAIL_BACKEND = f"{__name__}.{kind.__name__}" if kind else plain
    return chosen


def send():
    message = EmailMultiAlternatives("Your password", f"Here: {LINK}", "U <u@units.example>",
                                     ["a@cast.example"], headers={"Auto-Submitted": "yes"})
    message.attach_alternative("<p>Here</p>", "text/html")
    message.connection = Lasting()
    return message.send()


def test_what_can_be_sent_is_sent_at_once():
    assert send() == 1 and len(mail.outbox) == 1 and not Letter.objects.exists()


def test_what_cannot_is_sent_later_as_it_was(backend):
    backend(Away)
    assert send() == 1 and not mail.outbox
    assert send_letters() == Sent(0, 1, 0)
    backend()
    assert send_letters() == Sent(1, 0, 0) and not Letter.objects.exists()
    message, = mail.outbox
    assert (message.subject, message.body, message.to) == (
        "Your password", f"Here: {LINK}", ["a@cast.example"])
    assert message.alternatives[0].content == "<p>Here</p>"
    assert message.extra_headers["Auto-Submitted"] == "yes"
    assert message.extra_headers["Message-ID"].endswith("@localhost>")


def test_nobody_reads_the_link_out_of_the_database(backend):
    backend(Away)
    send()
    assert LINK not in Letter.objects.get().sealed


def test_a_letter_that_another_run_sends_is_left_to_it(backend):
    backend(Away)
    send()
    backend()
    Letter.objects.update(taken_until=timezone.now() + timedelta(minutes=5))
    assert send_letters() == Sent(0, 0, 0) and not mail.outbox
    Letter.objects.update(taken_until=timezone.now() - timedelta(minutes=1))     # it died
    assert send_letters().sent == 1


def test_one_that_nobody_takes_is_given_up_and_the_others_go(backend):
    backend(Away)
    send()
    backend(Refusing)
    assert send_letters() == Sent(0, 0, 1)


def test_after_as_long_as_its_link_works_it_is_given_up(backend):
    backend(Away)
    send()
    Letter.objects.update(made_at=timezone.now() - GIVEN_UP)
    assert send_letters() == Sent(0, 0, 1) and not Letter.objects.exists()


def test_signing_up_goes_on_without_a_mail_server(backend, client):
    backend(Away)
    answer = client.post(reverse("account_signup"), {
        "username": "newcomer", "email": "newcomer@cast.example", "password1": "7 brass kettles!"})
    assert answer.status_code == 302 and Letter.objects.count() == 1
    backend()
    assert send_letters().sent == 1 and mail.outbox[0].to == ["newcomer@cast.example"]


def test_the_doctor_names_letters_that_wait(backend):
    backend(Away)
    send()
    Letter.objects.update(made_at=timezone.now() - timedelta(hours=2))
    assert "Messages that wait for the mail server: 1" in bad("mail")
