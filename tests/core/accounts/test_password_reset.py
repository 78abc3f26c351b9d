"""A forgotten password."""
import pytest
from django.test import Client
from django.urls import reverse

from .pages import give_app, is_signed_in, last_mail, link_of, sign_in

pytestmark = pytest.mark.django_db
NEW = "nine ferrite cores"


def ask(client, address):
    return client.post(reverse("account_reset_password"), {"email": address})


def choose(client, link, password=NEW):
    """The link leads on to an address without its secret; the form stands there."""
    return client.post(client.get(link).url, {"password1": password, "password2": password})


def test_a_known_address_is_answered_like_an_unknown_one(client, alice):
    known, unknown = ask(client, alice.email), ask(Client(), "nobody@cast.example")
    assert (known.status_code, known.url) == (unknown.status_code, unknown.url)
    assert "asked for a new password for the account" in last_mail(alice.email).body
    assert "No account has it" in last_mail("nobody@cast.example").body


def test_the_link_leads_to_a_new_password(client, alice):
    ask(client, alice.email)
    assert choose(client, link_of(last_mail(alice.email))).url == reverse(
        "account_reset_password_from_key_done")
    sign_in(client, "alice", NEW)
    assert is_signed_in(client)


def test_the_link_is_good_once(client, alice):
    ask(client, alice.email)
    link = link_of(last_mail(alice.email))
    choose(client, link)
    assert "does not work any more" in Client().get(link).content.decode()


def test_a_weak_password_is_refused(client, alice):
    ask(client, alice.email)
    shown = choose(client, link_of(last_mail(alice.email)), "short").content.decode()
    assert 'id="id_password1_error"' in shown


def test_it_does_not_pass_by_the_second_factor(client, alice):
    give_app(alice)
    ask(client, alice.email)
    choose(client, link_of(last_mail(alice.email)))
    assert not is_signed_in(client)
    assert sign_in(client, "alice", NEW).url == reverse("mfa_authenticate")


def test_it_ends_every_session_and_tells_by_mail(client, alice):
    elsewhere = Client()
    sign_in(elsewhere, "alice")
    ask(client, alice.email)
    choose(client, link_of(last_mail(alice.email)))
    assert elsewhere.get(reverse("account")).status_code == 302
    assert "was changed by a link" in last_mail(alice.email).body
