"""Changing the e-mail address."""
import pytest
from django.urls import reverse

from .pages import confirm_password, give_app, last_mail, link_of, sign_in

pytestmark = pytest.mark.django_db
NEW = "alice@elsewhere.example"


def change(client):
    return client.post(reverse("account_email"), {"email": NEW, "action_add": ""})


def test_it_asks_for_the_password_first(client, alice):
    sign_in(client, "alice")
    answer = change(client)
    assert answer.url.startswith(reverse("account_reauthenticate"))


def test_the_present_address_counts_until_the_new_one_is_confirmed(client, alice):
    sign_in(client, "alice")
    confirm_password(client, "alice")
    change(client)
    alice.refresh_from_db()
    assert alice.email == "alice@cast.example" and alice.is_verified
    assert f"{NEW} waits" in client.get(reverse("account_email")).content.decode()


def test_the_link_changes_it_and_the_old_address_is_told(client, alice):
    sign_in(client, "alice")
    confirm_password(client, "alice")
    change(client)
    client.post(link_of(last_mail(NEW)))
    alice.refresh_from_db()
    assert alice.email == NEW and alice.is_verified
    assert f"to {NEW}" in last_mail("alice@cast.example").body


def test_somebody_elses_address_is_answered_like_a_free_one_and_stays_theirs(client, alice, bob):
    sign_in(client, "alice")
    confirm_password(client, "alice")
    answer = client.post(reverse("account_email"), {"email": bob.email, "action_add": ""})
    assert answer.url == change(client).url == reverse("account_email")
    client.post(link_of(last_mail(bob.email)))
    alice.refresh_from_db()
    assert alice.email == "alice@cast.example"


def test_a_second_factor_does_not_stand_in_the_way(client, alice):
    give_app(alice)
    client.force_login(alice)
    confirm_password(client, "alice")
    assert change(client).url == reverse("account_email")
    assert last_mail(NEW)
