"""Headers that every answer carries."""
import re

import pytest

pytestmark = pytest.mark.django_db
ADDRESSES = ["/", "/units/", "/units/0/", "/sign-in/", "/nowhere/"]


@pytest.mark.parametrize("address", ADDRESSES)
def test_the_content_policy_allows_nothing_unsafe(client, address):
    policy = client.get(address)["Content-Security-Policy"]
    assert "default-src 'none'" in policy and "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy and "*" not in policy and "data:" not in policy


@pytest.mark.parametrize("address", ADDRESSES)
def test_browsers_may_not_guess_types_frame_or_track(client, address):
    response = client.get(address)
    assert response["X-Content-Type-Options"] == "nosniff"
    assert response["X-Frame-Options"] == "DENY"
    assert response["Referrer-Policy"] == "same-origin"
    assert "camera=()" in response["Permissions-Policy"]


def test_a_nonce_is_never_used_twice(client):
    nonces = {
        re.search(r"nonce-([^']+)", client.get("/sign-in/")["Content-Security-Policy"])[1]
        for _ in range(3)
    }
    assert len(nonces) == 3


def test_a_signed_in_page_is_not_stored(client, django_user_model):
    client.force_login(django_user_model.objects.create_user("someone"))
    assert client.get("/")["Cache-Control"] == "no-store"
