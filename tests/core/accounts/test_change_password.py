"""Changing the password."""
import pytest
from django.test import Client
from django.urls import reverse

from .pages import last_mail, sign_in

pytestmark = pytest.mark.django_db
NEW = "nine ferrite cores"


def change(client, **typed):
    return client.post(reverse("account_change_password"), {
        "oldpassword": "alice-of-the-cast", "password1": NEW, "password2": NEW} | typed)


def test_it_takes_the_present_password(client, alice):
    sign_in(client, "alice")
    shown = change(client, oldpassword="not-hers-at-all").content.decode()
    assert 'id="id_oldpassword_error"' in shown
    alice.refresh_from_db()
    assert alice.check_password("alice-of-the-cast")


def test_the_new_one_opens_the_account_and_the_former_no_more(client, alice):
    sign_in(client, "alice")
    change(client)
    alice.refresh_from_db()
    assert alice.check_password(NEW) and not alice.check_password("alice-of-the-cast")


def test_it_keeps_this_session_and_ends_the_others(client, alice):
    sign_in(client, "alice")
    elsewhere = Client()
    sign_in(elsewhere, "alice")
    assert change(client).url == reverse("account")
    assert client.get(reverse("account")).status_code == 200
    assert elsewhere.get(reverse("account")).status_code == 302


def test_it_is_told_by_mail(client, alice):
    sign_in(client, "alice")
    change(client)
    assert last_mail(alice.email).subject == "[Underplate] Your password was changed"


def test_the_two_new_ones_must_agree(client, alice):
    sign_in(client, "alice")
    assert 'id="id_password2_error"' in change(
        client, password2="something else again").content.decode()
