"""How often something may be tried, counted where all processes see it."""
import pytest
from django.apps import apps
from django.conf import settings
from django.core.cache import caches
from django.db import connection
from django.test import Client
from django.urls import reverse

from core.accounts.signals import make_cache_table

from .pages import CODE, give_app, is_signed_in, last_mail, link_of, sign_in
from .test_password_reset import NEW, ask, choose

pytestmark = pytest.mark.django_db
FAR = {"REMOTE_ADDR": "203.0.113.9"}        # RFC 5737: an address of examples


def test_the_count_is_kept_in_the_database():
    assert settings.CACHES["default"]["BACKEND"].endswith("db.DatabaseCache")
    caches["default"].set("count", 3)
    assert caches.create_connection("default").get("count") == 3


def test_the_table_is_made_whenever_the_database_is_migrated(db):
    with connection.cursor() as cursor:
        cursor.execute("DROP TABLE cache")
    make_cache_table(apps.get_app_config("accounts"), "default")
    caches["default"].set("count", 4)
    assert caches["default"].get("count") == 4


def guess(times, name="alice", **where):
    """Wrong passwords, each from a browser without cookies."""
    return [sign_in(Client(**where), name, "not-hers-at-all").content.decode()
            for _ in range(times)]


def test_the_sixth_wrong_password_in_five_minutes_is_not_looked_at(alice):
    answers = guess(6)
    assert all("do not belong together" in answer for answer in answers[:5])
    assert "Too many tries" in answers[5]


def test_an_unknown_name_is_counted_alike(db):
    assert "Too many tries" in guess(6, "nobody-here")[5]


def test_strangers_who_guess_do_not_lock_the_owner_out(client, alice):
    """ASVS 6.1.1: her browser counts apart, since she signed in with it before."""
    sign_in(client, "alice")
    client.post(reverse("sign_out"))
    guess(6, **FAR)
    sign_in(client, "alice")
    assert is_signed_in(client)


def test_a_browser_known_to_one_person_is_not_known_to_another(client, alice, bob):
    sign_in(client, "bob")
    client.post(reverse("sign_out"))
    guess(6, **FAR)
    assert "Too many tries" in sign_in(client, "alice").content.decode()


def test_a_known_browser_may_not_guess_for_ever(client, alice):
    sign_in(client, "alice")
    client.post(reverse("sign_out"))
    for _ in range(5):
        sign_in(client, "alice", "not-hers-at-all")
    assert "Too many tries" in sign_in(client, "alice").content.decode()


def test_a_forged_mark_of_a_known_browser_is_not_believed(client, alice):
    guess(6, **FAR)
    client.cookies["known"] = "eyJicm93c2VyIjoieCIsIm1hcmtzIjpbImFsaWNlIl19:1abcde:forged"
    assert "Too many tries" in sign_in(client, "alice").content.decode()


def test_a_new_password_ends_the_wait_of_its_owner(client, alice):

    guess(6, alice.email, **FAR)
    ask(client, alice.email)
    choose(client, link_of(last_mail(alice.email)))
    assert sign_in(client, alice.email, NEW).status_code == 302


def test_many_tries_from_one_network_are_refused_whatever_the_names(db):
    """Thirty a minute; the page says so with 429."""
    answers = [sign_in(Client(**FAR), f"name{n}", "not-theirs-at-all") for n in range(31)]
    assert answers[29].status_code == 200 and answers[30].status_code == 429
    assert "Wait some minutes" in answers[30].content.decode()


def test_codes_are_not_guessed_for_ever(client, alice):
    give_app(alice)
    sign_in(client, "alice")
    for _ in range(5):
        client.post(reverse("mfa_authenticate"), {"code": "000000x"})
    shown = client.post(reverse("mfa_authenticate"), {"code": CODE}).content.decode()
    assert "Too many tries" in shown and not is_signed_in(client)


def test_resets_are_limited_for_an_address_known_or_not(alice):
    for address in (alice.email, "nobody@cast.example"):
        answers = [Client().post(reverse("account_reset_password"), {"email": address}).status_code
                   for _ in range(6)]
        assert answers == [302] * 5 + [429]


def test_behind_no_proxy_a_made_up_forwarded_address_counts_for_nothing(alice):
    for n in range(5):
        sign_in(Client(headers={"x-forwarded-for": f"198.51.100.{n}"}), "alice", "wrong-at-all")
    assert "Too many tries" in guess(1)[0]
