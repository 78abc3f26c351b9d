"""Signing in and out."""
import re

import pytest
from django.contrib.auth.hashers import MD5PasswordHasher
from django.core import mail
from django.test import Client
from django.urls import reverse

from tests.cast import person

from .pages import CODE, give_app, is_signed_in, last_mail, sign_in

pytestmark = pytest.mark.django_db


def test_the_header_offers_to_sign_in(client):
    shown = client.get(reverse("sign_in")).content.decode()
    assert f'<a href="{reverse("sign_in")}" aria-current="page">Sign in</a>' in shown


def test_it_leads_to_the_front_page(client, alice):
    assert sign_in(client, "alice").url == reverse("front_page")
    assert client.session["_auth_user_id"] == str(alice.pk)


def test_the_address_does_as_well_as_the_name(client, alice):
    assert sign_in(client, alice.email, "alice-of-the-cast").url == reverse("front_page")
    assert is_signed_in(client)


def test_it_leads_back_to_where_one_wanted_to_go(client, alice):
    shown = client.get(reverse("sign_in"), {"next": "/bench/"}).content.decode()
    assert 'name="next" value="/bench/"' in shown
    assert sign_in(client, "alice", next="/bench/").url == "/bench/"


@pytest.mark.parametrize("elsewhere", ["https://example.org/", "//example.org/", "javascript:a"])
def test_it_never_leads_to_another_site(client, alice, elsewhere):
    assert sign_in(client, "alice", next=elsewhere).url == reverse("front_page")


def test_a_wrong_password_says_what_to_do_and_keeps_the_name(client, alice):
    answer = sign_in(client, "alice", "not-hers-at-all")
    shown = answer.content.decode()
    assert answer.status_code == 200 and "do not belong together" in shown
    assert 'value="alice"' in shown and "not-hers-at-all" not in shown


@pytest.mark.parametrize("name", ["nobody-here", "nobody@cast.example"])
def test_an_unknown_name_gets_the_answer_of_a_wrong_password(client, alice, name):
    known = sign_in(client, "alice", "not-hers-at-all").content.decode()
    unknown = sign_in(Client(), name, "not-hers-at-all").content.decode()
    assert words_of(known, "alice") == words_of(unknown, name)


def words_of(page, name):
    """A page without what differs between any two answers: its token and what was typed."""
    page = re.sub(r'name="csrfmiddlewaretoken" value="\w+"|nonce="[^"]*"', "", page)
    return page.replace(f'value="{name}"', "")


def test_a_password_is_digested_for_an_unknown_name_too(client, db, monkeypatch):
    """Else the time of the answer would tell (ASVS 6.3.8)."""
    digested = []
    plain = MD5PasswordHasher.encode
    monkeypatch.setattr(MD5PasswordHasher, "encode",
                        lambda self, password, salt: digested.append(password)
                        or plain(self, password, salt))
    sign_in(client, "nobody-here", "some-long-password")
    assert digested == ["some-long-password"]


def test_a_missing_name_is_named_beside_its_field(client):
    shown = sign_in(client, "", "some-long-password").content.decode()
    assert 'id="id_login_error"' in shown and not is_signed_in(client)


def test_an_address_that_is_not_confirmed_does_not_sign_in_and_gets_a_link(client, db):
    carol = person("carol", verified=False)
    assert sign_in(client, "carol").url == reverse("account_email_verification_sent")
    assert not is_signed_in(client)
    assert "/sign-up/confirm/" in last_mail(carol.email).body


def test_a_closed_account_does_not_sign_in(client, alice):
    alice.is_active = False
    alice.save()
    assert sign_in(client, "alice").url == reverse("account_inactive")
    assert not is_signed_in(client)


def test_a_second_factor_is_asked_for_after_the_password(client, alice):
    give_app(alice)
    assert sign_in(client, "alice").url == reverse("mfa_authenticate")
    assert not is_signed_in(client)
    client.post(reverse("mfa_authenticate"), {"code": CODE})
    assert is_signed_in(client)


def test_a_code_is_good_once(client, alice):
    give_app(alice)
    for browser in (client, Client()):
        sign_in(browser, "alice")
        browser.post(reverse("mfa_authenticate"), {"code": CODE})
    assert is_signed_in(client) and not is_signed_in(browser)


def test_a_sign_in_half_done_can_be_left(client, alice):
    give_app(alice)
    sign_in(client, "alice")
    client.post(reverse("sign_out"))
    assert client.get(reverse("sign_in")).status_code == 200


def test_the_name_of_the_session_is_new_after_signing_in(client, alice):
    client.get(reverse("second_factor"))
    sign_in(client, "alice", "not-hers-at-all")
    before = client.session.session_key
    sign_in(client, "alice")
    assert client.session.session_key != before


def test_another_browser_is_told_by_mail_and_the_same_is_not(client, alice):
    sign_in(client, "alice")
    client.post(reverse("sign_out"))
    sign_in(client, "alice")
    assert mail.outbox == []
    sign_in(Client(), "alice")
    assert last_mail(alice.email).subject == "[Underplate] Signed in with another browser"


def test_the_header_shows_who_is_signed_in_and_how_to_leave(client, alice):
    client.force_login(alice)
    shown = client.get(reverse("unit_list")).content.decode()
    assert "alice</span>" in shown
    assert f'<form method="post" action="{reverse("sign_out")}">' in shown


def test_signing_out_takes_a_post(client, alice):
    client.force_login(alice)
    assert client.get(reverse("sign_out")).status_code == 405
    assert client.post(reverse("sign_out")).url == reverse("front_page")
    assert not is_signed_in(client)
