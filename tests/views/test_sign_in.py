"""Signing in and out."""
import pytest
from django.urls import reverse

pytestmark = pytest.mark.django_db
PASSWORD = "alice-of-the-cast"


def sign_in(client, **typed):
    return client.post(reverse("sign_in"), {"username": "alice", "password": PASSWORD} | typed)


def test_the_header_offers_to_sign_in(client):
    assert f'<a href="{reverse("sign_in")}" aria-current="page">Sign in</a>' in client.get(
        reverse("sign_in")).content.decode()


def test_it_leads_to_the_front_page(client, alice):
    assert sign_in(client).url == reverse("front_page")
    assert client.session["_auth_user_id"] == str(alice.pk)


def test_it_leads_back_to_where_one_wanted_to_go(client, alice):
    shown = client.get(reverse("sign_in"), {"next": "/bench/"}).content.decode()
    assert 'name="next" value="/bench/"' in shown
    assert sign_in(client, next="/bench/").url == "/bench/"


def test_it_never_leads_to_another_site(client, alice):
    assert sign_in(client, next="https://example.org/").url == reverse("front_page")


def test_a_wrong_password_says_what_to_do_and_keeps_the_name(client, alice):
    shown = sign_in(client, password="wrong").content.decode()
    assert "do not belong together" in shown and 'value="alice"' in shown
    assert "wrong" not in shown


def test_a_missing_name_is_named_beside_its_field(client):
    shown = sign_in(client, username="").content.decode()
    assert 'class="err"' in shown and "_auth_user_id" not in client.session


def test_the_header_shows_who_is_signed_in_and_how_to_leave(client, alice):
    client.force_login(alice)
    shown = client.get(reverse("unit_list")).content.decode()
    assert "alice</span>" in shown
    assert f'<form method="post" action="{reverse("sign_out")}">' in shown


def test_signing_out_takes_a_post(client, alice):
    client.force_login(alice)
    assert client.get(reverse("sign_out")).status_code == 405
    assert client.post(reverse("sign_out")).url == reverse("front_page")
    assert "_auth_user_id" not in client.session
