"""How long a session lasts, and how sessions end."""
import pytest
from allauth.usersessions.models import UserSession
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from core.accounts import sessions

from .pages import is_signed_in, sign_in

pytestmark = pytest.mark.django_db
HOUR, DAY = 3600, 86400


def later(client, seconds, name=sessions.SEEN):
    """Put the session back by that much, as if time had passed."""
    session = client.session
    session[name] -= seconds
    session.save()
    return client.get(reverse("account")).status_code == 200


@pytest.mark.parametrize(("who", "lasts", "ends"), [
    ("alice", 13 * DAY, 15 * DAY), ("rita", 7 * HOUR, 9 * HOUR),
    ("mona", 7 * HOUR, 9 * HOUR), ("ada", 7 * HOUR, 9 * HOUR),
])
def test_an_idle_session_ends_by_role(client, request, who, lasts, ends):
    client.force_login(request.getfixturevalue(who))
    assert later(client, lasts)
    assert not later(client, ends)


@pytest.mark.parametrize(("who", "lasts", "ends"), [
    ("alice", 29 * DAY, 2 * DAY), ("rita", 11 * HOUR, 2 * HOUR),
    ("mona", 11 * HOUR, 2 * HOUR), ("ada", 11 * HOUR, 2 * HOUR),
])
def test_a_session_in_use_ends_too(client, request, who, lasts, ends):
    """`lasts`, then `ends` more on top: together beyond the limit."""
    client.force_login(request.getfixturevalue(who))
    assert later(client, lasts, sessions.STARTED)
    assert not later(client, ends, sessions.STARTED)


def test_whoever_was_signed_out_is_told_why(client, alice):
    client.force_login(alice)
    later(client, 15 * DAY)
    assert "after 14 days without a visit" in client.get(reverse("front_page")).content.decode()


def test_use_is_noted_now_and_then(client, alice):
    sign_in(client, "alice")
    seen = UserSession.objects.get().last_seen_at
    assert later(client, DAY)
    assert UserSession.objects.get().last_seen_at > seen
    assert client.session[sessions.SEEN] > client.session[sessions.STARTED] - HOUR


def test_ones_sessions_are_listed_and_the_others_end_together(client, alice):
    sign_in(client, "alice")
    elsewhere = Client(headers={"user-agent": "Mozilla/5.0 (X11; Linux x86_64) Firefox/144.0"})
    sign_in(elsewhere, "alice")
    assert "Firefox on Linux" in client.get(reverse("usersessions_list")).content.decode()
    client.post(reverse("usersessions_list"))
    assert is_signed_in(client)
    assert elsewhere.get(reverse("account")).status_code == 302


def test_somebody_elses_sessions_are_not_listed_nor_ended(client, alice, bob):
    sign_in(client, "alice")
    other = Client(headers={"user-agent": "Mozilla/5.0 (X11; Linux x86_64) Firefox/144.0"})
    sign_in(other, "bob")
    assert "Firefox" not in client.get(reverse("usersessions_list")).content.decode()
    client.post(reverse("usersessions_list"))
    assert other.get(reverse("account")).status_code == 200


def test_every_session_of_a_person_can_be_ended(client, alice):
    sign_in(client, "alice")
    sessions.end_sessions(alice)
    assert client.get(reverse("account")).status_code == 302


def test_a_closed_account_is_out_with_the_next_request(client, alice):
    client.force_login(alice)
    alice.is_active = False
    alice.save()
    assert client.get(reverse("account")).status_code == 302


def test_a_suspension_counts_with_the_next_request(client, alice, unit):
    client.force_login(alice)
    alice.suspended_at = timezone.now()
    alice.save()
    assert client.post(reverse("bench_new"), {"title": "x"}).status_code == 403
    assert client.get(reverse("account")).status_code == 200


def test_a_role_taken_away_is_gone_with_the_next_request(client, rita):
    client.force_login(rita)
    assert client.get(reverse("hazard_list")).status_code == 200
    rita.role = "contributor"
    rita.save()
    assert client.get(reverse("hazard_list")).status_code == 403
