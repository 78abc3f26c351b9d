"""What the log says of signing in."""
import logging

import pytest
from django.urls import reverse

from .pages import CODE, give_app, sign_in


@pytest.fixture
def lines(caplog):
    """(words, number of the account) of each line so far."""
    caplog.set_level(logging.INFO, "core.sign_in")
    return lambda: [(record.getMessage(), getattr(record, "user", None))
                    for record in caplog.records if record.name == "core.sign_in"]


def test_each_sign_in_is_a_line_with_what_it_was_done_by(client, alice, lines):
    give_app(alice)
    sign_in(client, "alice")
    client.post(reverse("mfa_authenticate"), {"code": "000000"})
    client.post(reverse("mfa_authenticate"), {"code": CODE})
    client.post(reverse("sign_out"))
    assert lines() == [("A second factor was wrong: totp.", alice.pk),
                       ("A second factor was shown: totp.", alice.pk),
                       ("Somebody signed in.", alice.pk), ("Somebody signed out.", alice.pk)]


def test_a_wrong_password_is_a_line_that_says_nothing_of_what_was_typed(client, alice, lines):
    client.post(reverse("sign_in"), {"login": "my secret instead", "password": "wrong"})
    assert lines() == [("A name and a password did not fit.", None)]
