"""Making an account, and confirming its address."""
import pytest
from allauth.account.models import EmailAddress
from django.core import mail
from django.test import Client
from django.urls import reverse

from core.accounts.models import Role, User
from tests.cast import person

from .pages import is_signed_in, last_mail, link_of, sign_in

pytestmark = pytest.mark.django_db
PASSWORD = "seven copper windings"


def sign_up(client, **typed):
    return client.post(reverse("account_signup"), {
        "username": "carol", "email": "carol@cast.example", "password1": PASSWORD} | typed)


def test_a_new_account_waits_for_its_address_to_be_confirmed(client):
    assert sign_up(client).url == reverse("account_email_verification_sent")
    carol = User.objects.get(username="carol")
    assert carol.role == Role.CONTRIBUTOR and not carol.is_verified and not is_signed_in(client)


def test_the_link_of_the_message_confirms_the_address(client):
    sign_up(client)
    link = link_of(last_mail("carol@cast.example"))
    assert "Does carol@cast.example belong" in client.get(link).content.decode()
    client.post(link)
    assert User.objects.get(username="carol").is_verified
    sign_in(client, "carol", PASSWORD)
    assert is_signed_in(client)


def test_looking_at_the_link_confirms_nothing(client):
    """Mail scanners open links."""
    sign_up(client)
    client.get(link_of(last_mail("carol@cast.example")))
    assert not User.objects.get(username="carol").is_verified


def test_a_made_up_link_says_what_to_do(client):
    answer = client.get(reverse("account_confirm_email", args=["made:up:key"]))
    assert answer.status_code == 200 and "does not work any more" in answer.content.decode()


def test_a_known_address_is_answered_like_an_unknown_one(client, alice):
    """ASVS 6.3.8: the page is the same; only the mailbox tells."""
    known = sign_up(client, email=alice.email)
    unknown = sign_up(Client(), username="dora", email="dora@cast.example")
    assert (known.status_code, known.url) == (unknown.status_code, unknown.url)
    assert client.get(known.url).status_code == 200
    assert not User.objects.filter(username="carol").exists()
    assert "belongs to an account already" in last_mail(alice.email).body
    assert len(mail.outbox) == 2


@pytest.mark.parametrize("password", [
    "short-words", "1234567890123456", "abababababab", "international", "underplate12",
    "charger-1234", "carol@cast.example"])
def test_a_weak_password_is_refused_beside_its_field(client, password):
    answer = sign_up(client, password1=password)
    assert answer.status_code == 200 and 'id="id_password1_error"' in answer.content.decode()
    assert not User.objects.filter(username="carol").exists()


@pytest.mark.parametrize("password", [
    "p\u00e4ssw\u00f6rter \U0001f50c mit Raum", " leads with space", "x7-Kettle" * 15,
    "a plug, a fuse, a coil. " * 20 + "x"])
def test_any_characters_and_any_length_are_taken_as_typed(client, password):
    sign_up(client, password1=password)
    assert User.objects.get(username="carol").check_password(password)


@pytest.mark.parametrize("name", ["a@b.example", "two words", "c\u0430rol", "-dash", "x", "Admin",
                                  "former-contributor-1", "n" * 31])
def test_a_name_that_passes_for_something_else_is_refused(client, name):
    """The third is spelt with a Cyrillic letter."""
    assert 'id="id_username_error"' in sign_up(client, username=name).content.decode()


def test_a_name_is_one_persons_whatever_its_capitals(client, alice):
    assert "has this name already" in sign_up(client, username="ALICE").content.decode()


@pytest.mark.parametrize(("field", "typed", "words"), [
    ("username", "", "This is missing: fill it in."), ("password1", "", "This is missing"),
    ("email", "no address", "This is no e-mail address")])
def test_what_is_wrong_is_told_with_the_remedy(client, field, typed, words):
    shown = sign_up(client, **{field: typed}).content.decode()
    assert words in shown.partition(f'id="id_{field}_error"')[2]


def test_what_was_typed_is_kept_but_the_password(client):
    shown = sign_up(client, password1="short-words").content.decode()
    assert 'value="carol"' in shown and 'value="carol@cast.example"' in shown
    assert "short-words" not in shown


def test_the_column_follows_the_confirmed_address():
    carol = person("carol", verified=False)
    address = EmailAddress.objects.get(user=carol)
    address.verified = True
    address.save()
    carol.refresh_from_db()
    assert carol.is_verified and carol.in_good_standing
    address.delete()
    carol.refresh_from_db()
    assert not carol.is_verified
