"""The end of an account."""
import pytest
from allauth.account.models import EmailAddress
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from core.accounts.models import FORMER, User
from core.accounts.services.api_tokens import find_token, issue_token
from core.accounts.services.delete_account import NotNow, account_deleted, delete_account
from core.audit.models import Entry
from tests.cast import person

from .pages import confirm_password, give_app, is_signed_in, sign_in

pytestmark = pytest.mark.django_db


def delete(client, name="alice"):
    return client.post(reverse("account_delete"), {"name": name})


def test_it_asks_for_the_password_first(client, alice):
    sign_in(client, "alice")
    assert delete(client).url.startswith(reverse("account_reauthenticate"))
    assert User.objects.filter(username="alice").exists()


def test_it_asks_for_the_name(client, alice):
    sign_in(client, "alice")
    confirm_password(client, "alice")
    assert 'id="id_name_error"' in delete(client, "alicia").text
    assert User.objects.filter(username="alice").exists()


def test_name_address_and_every_way_in_are_gone(client, alice):
    sign_in(client, "alice")
    elsewhere = Client()
    sign_in(elsewhere, "alice")
    _, secret = issue_token(owner=alice, name="x", scopes=["read"], days=30)
    confirm_password(client, "alice")
    assert delete(client).url == reverse("front_page")
    alice.refresh_from_db()
    assert alice.email == "" and "alice" not in alice.username and not alice.is_active
    assert not EmailAddress.objects.filter(user=alice).exists()
    assert not is_signed_in(client) and find_token(secret) is None
    assert elsewhere.get(reverse("account")).url.startswith(reverse("sign_in"))


def test_nobody_signs_in_with_it_again(client, alice):
    delete_account(person=alice)
    sign_in(client, "alice")
    assert not is_signed_in(client)


def test_what_was_made_stays_under_a_former_contributor(alice, unit):
    delete_account(person=alice)
    unit.refresh_from_db()
    assert unit.contributor.get_username() == FORMER


def test_the_name_and_address_are_free_again(alice):
    delete_account(person=alice)
    assert person("alice").pk != alice.pk


def test_the_log_tells_of_it_once_and_names_nobody(alice):
    give_app(alice)
    delete_account(person=alice)
    entry = Entry.objects.get(action="account_deleted")
    assert entry.actor_id == alice.pk and "alice" not in str(vars(entry))


def test_others_hear_of_it_before_the_name_goes(alice):
    heard = []

    def hear(sender, person, **kwargs):
        heard.append(person.username)

    account_deleted.connect(hear)
    delete_account(person=alice)
    account_deleted.disconnect(hear)
    assert heard == ["alice"]


def test_the_only_administrator_stays(client, ada):
    with pytest.raises(NotNow, match="Appoint another"):
        delete_account(person=ada)
    sign_in(client, "ada")
    confirm_password(client, "ada")
    assert "Appoint another" in delete(client, "ada").text


def test_a_suspended_person_may_go(client, alice):
    alice.suspended_at = timezone.now()
    alice.save()
    sign_in(client, "alice")
    confirm_password(client, "alice")
    assert delete(client).url == reverse("front_page")
