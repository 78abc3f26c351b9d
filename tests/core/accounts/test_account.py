"""The overview of one's own account."""
import pytest
from django.urls import reverse
from django.utils import timezone

from core.accounts.services.api_tokens import issue_token

from .pages import give_app, sign_in

pytestmark = pytest.mark.django_db


def test_it_tells_how_the_account_stands(client, alice):
    sign_in(client, "alice")
    issue_token(owner=alice, name="x", scopes=["read"], days=30)
    shown = client.get(reverse("account")).text
    for words in ("alice@cast.example, confirmed", "1 open", "1 in use", "None."):
        assert words in shown


def test_it_asks_few_queries(client, rita, django_assert_max_num_queries):
    give_app(rita)
    client.force_login(rita)
    with django_assert_max_num_queries(12):
        client.get(reverse("account"))


def test_a_role_that_does_not_count_yet_is_told(client, rita):
    client.force_login(rita, second_factor=False)
    assert "Your role needs a second factor" in client.get(reverse("account")).text
    give_app(rita)
    assert "has not shown your second factor" in client.get(reverse("account")).text


def test_a_suspended_person_reads_why(client, alice):
    alice.suspended_at, alice.suspended_reason = timezone.now(), "Advertising in remarks."
    alice.save()
    client.force_login(alice)
    shown = client.get(reverse("account")).text
    assert "reads and does not write" in shown and "Advertising in remarks." in shown


def test_nobody_sees_it_without_signing_in(client):
    assert client.get(reverse("account")).url.startswith(reverse("sign_in"))


def test_the_address_is_on_no_page_of_others(client, alice, bob):
    client.force_login(bob)
    for name in ("front_page", "unit_list", "bench_list", "account"):
        assert alice.email not in client.get(reverse(name)).text
