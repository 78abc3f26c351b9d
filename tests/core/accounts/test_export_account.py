"""A copy of one's own data."""
import json

import pytest
from django.urls import reverse

from core.accounts.services.api_tokens import issue_token
from core.accounts.services.export_account import export_account
from teardowns.models import Unit

from .pages import confirm_password, give_app, sign_in

pytestmark = pytest.mark.django_db


def test_it_asks_for_the_password_first(client, alice):
    sign_in(client, "alice")
    assert client.post(reverse("account_export")).url.startswith(
        reverse("account_reauthenticate"))


def test_the_file_holds_the_account_and_what_was_made(client, alice, unit):
    sign_in(client, "alice")
    confirm_password(client, "alice")
    answer = client.post(reverse("account_export"))
    assert 'filename="underplate-account.json"' in answer["Content-Disposition"]
    document = json.loads(answer.content)
    assert document["account"]["email"] == alice.email
    assert document["records"]["teardowns.unit by contributor"][0]["title"] == unit.title
    assert document["records"]["usersessions.usersession by user"][0]["ip"] == "127.0.0.1"


def test_no_secret_is_in_it(alice):
    app = give_app(alice)
    token, secret = issue_token(owner=alice, name="x", scopes=["read"], days=30)
    text = json.dumps(export_account(person=alice), default=str)
    for hidden in (alice.password, token.digest, secret, app.data["secret"]):
        assert hidden not in text


def test_nothing_of_others_is_in_it(alice, bob, unit):
    Unit.objects.create(contributor=bob, title="Bob's own")
    text = json.dumps(export_account(person=alice), default=str)
    assert "Bob" not in text and bob.email not in text
