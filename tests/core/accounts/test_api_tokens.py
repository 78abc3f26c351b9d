"""Tokens: made, shown once, used, refused, revoked."""
import json
from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from core.accounts.models import ApiToken
from core.accounts.services.api_tokens import (
    MOST,
    NotIssued,
    find_token,
    issue_token,
    revoke_token,
)

from .pages import confirm_password, sign_in

pytestmark = pytest.mark.django_db


def issue(owner, *scopes, name=None):
    return issue_token(owner=owner, name=name or " ".join(scopes) or "bench script",
                       scopes=scopes or ["read"], days=30)


def with_token(secret):
    """A client without cookies, which enforces CSRF as a server does."""
    return Client(enforce_csrf_checks=True, headers={"authorization": f"Bearer {secret}"})


def test_only_a_digest_is_kept(alice):
    token, secret = issue(alice)
    assert secret.startswith("upl_") and secret.rpartition("_")[2] not in str(vars(token))
    assert len(token.digest) == 64


def test_a_token_is_found_by_its_secret_alone(alice):
    token, secret = issue(alice)
    assert find_token(secret) == token
    for wrong in (secret[:-1], secret + "x", f"upl_{token.prefix}_", "", "upl_", secret[4:],
                  f"upl_{token.prefix}_{token.digest}"):
        assert find_token(wrong) is None


def test_it_reads_what_its_owner_reads(alice, unit):
    _, secret = issue(alice)
    assert with_token(secret).get(reverse("unit_document", args=[unit.pk])).status_code == 200
    assert Client().get(reverse("unit_document", args=[unit.pk])).status_code == 404


def test_it_does_not_read_what_its_owner_does_not(bob, unit):
    _, secret = issue(bob)
    assert with_token(secret).get(reverse("unit_document", args=[unit.pk])).status_code == 404


def test_it_writes_without_a_csrf_token_and_with_the_scope(alice, unit):
    address = reverse("bench_upload_start", args=[unit.pk])
    body = json.dumps({"name": "board.jpg", "size": 1000, "sha256": "0" * 64})
    _, reading = issue(alice)
    refused = with_token(reading).post(address, body, "application/json")
    assert refused.status_code == 403 and "lacks the scope “contribute”" in refused.text
    _, writing = issue(alice, "read", "contribute")
    answer = with_token(writing).post(address, body, "application/json")
    assert answer.status_code not in (302, 401, 403)


def test_no_cookie_is_read_or_set(alice, bob, client):
    """A browser signed in as Bob that sends Alice's token acts as Alice, and stays Bob's."""
    client.force_login(bob)
    _, secret = issue(alice)
    answer = client.get(reverse("bench_list"), headers={"authorization": f"Bearer {secret}"})
    assert answer.context["user"] == alice and not answer.cookies
    assert answer["Cache-Control"] == "no-store"


@pytest.mark.parametrize("spoil", [
    {"revoked_at": timezone.now()}, {"expires_at": timezone.now() - timedelta(seconds=1)},
    {"digest": "0" * 64}])
def test_a_token_no_longer_good_is_refused_in_plain_words(alice, spoil):
    token, secret = issue(alice)
    ApiToken.objects.filter(pk=token.pk).update(**spoil)
    answer = with_token(secret).get(reverse("unit_list"))
    assert answer.status_code == 401 and answer["Content-Type"].startswith("text/plain")
    assert answer["WWW-Authenticate"].startswith("Bearer") and "expired" in answer.text


def test_a_closed_account_has_no_tokens(alice):
    _, secret = issue(alice)
    alice.is_active = False
    alice.save()
    assert with_token(secret).get(reverse("unit_list")).status_code == 401


@pytest.mark.parametrize(("column", "words"), [
    ({"suspended_at": timezone.now()}, "suspended"), ({"email_verified_at": None}, "confirmed")])
def test_who_may_not_write_may_not_by_token(alice, unit, column, words):
    _, secret = issue(alice, "read", "contribute")
    type(alice).objects.filter(pk=alice.pk).update(**column)
    answer = with_token(secret).post(reverse("bench_upload_start", args=[unit.pk]))
    assert answer.status_code == 403 and words in answer.text
    assert answer["Content-Type"].startswith("text/plain")


def test_a_trusted_role_is_not_carried_by_a_token(rita):
    _, secret = issue(rita, "read", "contribute")
    answer = with_token(secret).get(reverse("hazard_list"))
    assert answer.status_code == 403 and "acts as a contributor" in answer.text


def test_account_pages_are_not_for_tokens(alice):
    _, secret = issue(alice, "read", "contribute")
    for name in ("account", "account_tokens", "account_export", "account_delete", "sign_in"):
        answer = with_token(secret).get(reverse(name))
        assert answer.status_code == 403 and "not for tokens" in answer.text


def test_its_use_is_noted(alice):
    token, secret = issue(alice)
    with_token(secret).get(reverse("unit_list"))
    token.refresh_from_db()
    assert token.last_used_at is not None


def test_making_one_asks_for_the_password_first(client, alice):
    sign_in(client, "alice")
    answer = client.post(reverse("account_tokens"), {"name": "x", "scopes": "read", "days": "30"})
    assert answer.url.startswith(reverse("account_reauthenticate"))
    assert not ApiToken.objects.exists()


def test_the_page_shows_the_secret_once(client, alice):
    sign_in(client, "alice")
    confirm_password(client, "alice")
    made = client.post(reverse("account_tokens"), {
        "name": "bench script", "scopes": ["read"], "days": "30"})
    secret = made.context["secret"]
    assert secret in made.text and find_token(secret).owner == alice
    assert secret not in client.get(reverse("account_tokens")).text


@pytest.mark.parametrize(("typed", "field"), [
    ({"name": ""}, "name"), ({"scopes": []}, "scopes"), ({"scopes": ["review"]}, "scopes"),
    ({"days": "9999"}, "days")])
def test_what_is_wrong_is_told_beside_its_field(client, alice, typed, field):
    sign_in(client, "alice")
    confirm_password(client, "alice")
    answer = client.post(reverse("account_tokens"), {
        "name": "bench script", "scopes": ["read"], "days": "30"} | typed)
    assert answer.status_code == 200 and f'id="id_{field}_error"' in answer.text


def test_it_is_revoked_by_its_owner_alone(client, alice, bob):
    token, secret = issue(alice)
    assert not revoke_token(owner=bob, token_pk=token.pk)
    sign_in(client, "alice")
    confirm_password(client, "alice")
    client.post(reverse("account_tokens"), {"revoke": token.pk})
    assert find_token(secret) is None


def test_there_is_a_most(client, alice):
    for n in range(MOST):
        issue(alice, name=f"script {n}")
    with pytest.raises(NotIssued, match="Revoke one"):
        issue(alice)
    sign_in(client, "alice")
    confirm_password(client, "alice")
    assert "Revoke one" in client.post(reverse("account_tokens"), {
        "name": "one more", "scopes": ["read"], "days": "30"}).text


def test_a_form_sent_twice_makes_one(client, alice):
    sign_in(client, "alice")
    confirm_password(client, "alice")
    for _ in range(2):
        answer = client.post(reverse("account_tokens"), {
            "name": "bench script", "scopes": ["read"], "days": "30"})
    assert ApiToken.objects.count() == 1 and "named “bench script” in use" in answer.text
