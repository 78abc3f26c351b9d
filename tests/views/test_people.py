"""Accounts by name and role, for moderators and administrators; no address is shown."""
import pytest

from core.accounts.models import User
from teardowns.models import Approval, Statement
from tests.views.deciding import look, send

pytestmark = pytest.mark.django_db
WHY = {"code": "abuse", "facts": "Forty records of one leaflet in an hour."}


@pytest.mark.parametrize("name", ["mona", "ada"])
def test_it_finds_by_name_and_role_and_shows_no_address(client, request, alice, rita, name):
    client.force_login(request.getfixturevalue(name))
    page = client.get("/moderation/people/?q=ali").content.decode()
    assert ">alice<" in page and ">rita<" not in page and "@cast.example" not in page
    page = client.get("/moderation/people/?role=reviewer").content.decode()
    assert ">rita<" in page and ">alice<" not in page


def test_an_unknown_role_is_no_filter_and_an_unknown_name_is_said(client, mona, alice):
    client.force_login(mona)
    assert ">alice<" in client.get("/moderation/people/?role=king").content.decode()
    assert "No account has" in client.get("/moderation/people/?q=zzz").content.decode()


def test_two_hundred_accounts_cost_at_most_twelve_queries(
        client, mona, django_assert_max_num_queries):
    User.objects.bulk_create(User(username=f"person-{n}") for n in range(200))
    client.force_login(mona)
    with django_assert_max_num_queries(12):
        client.get("/moderation/people/")


def test_a_moderator_suspends_after_a_look_and_lifts_it(client, alice, mona, milo):
    client.force_login(mona)
    address = f"/moderation/people/{alice.pk}/"
    assert "every session ends" in client.get(address).content.decode()
    assert WHY["facts"] in look(client, address, do="suspend", **WHY)
    send(client, address, do="suspend", **WHY)
    alice.refresh_from_db()
    assert alice.is_suspended and Statement.objects.get().addressee == alice
    send(client, address, do="lift", code="put_right", facts="She explained it.")
    alice.refresh_from_db()
    assert not alice.is_suspended


@pytest.mark.parametrize(("who", "whom"), [("mona", "milo"), ("mona", "ada"), ("ada", "alice")])
def test_peers_are_not_offered_nor_suspended_and_an_administrator_suspends_nobody(
        client, request, who, whom):
    client.force_login(request.getfixturevalue(who))
    person = request.getfixturevalue(whom)
    address = f"/moderation/people/{person.pk}/"
    assert "every session ends" not in client.get(address).content.decode()
    send(client, address, do="suspend", **WHY)
    assert not User.objects.exclude(suspended_at=None).exists()


def test_a_role_is_asked_for_and_nothing_changes_yet(client, alice, mona):
    client.force_login(mona)
    address = f"/moderation/people/{alice.pk}/"
    client.post(address, {"act": "role", "role": "reviewer", "reason": "Twelve sound records."})
    assert Approval.objects.get().detail == {"role": "reviewer", "before": "contributor"}
    assert User.objects.get(pk=alice.pk).role == "contributor"


@pytest.mark.parametrize("typed", [
    {"role": "moderator", "reason": "x"}, {"role": "", "reason": "x"},
    {"role": "reviewer", "reason": ""}])
def test_a_role_that_may_not_be_proposed_or_has_no_reason_is_refused(client, alice, mona, typed):
    client.force_login(mona)
    answer = client.post(f"/moderation/people/{alice.pk}/", {"act": "role"} | typed)
    assert answer.status_code == 200 and not Approval.objects.exists()


def test_nobody_changes_their_own_role(client, ada):
    client.force_login(ada)
    address = f"/moderation/people/{ada.pk}/"
    assert "Nobody changes their own role" in client.get(address).content.decode()
    client.post(address, {"act": "role", "role": "moderator", "reason": "Mine."})
    assert not Approval.objects.exists()


@pytest.mark.parametrize("name", ["alice", "rita"])
def test_nobody_else_gets_in(client, request, bob, name):
    client.force_login(request.getfixturevalue(name))
    assert client.get("/moderation/people/").status_code == 403
    assert send(client, f"/moderation/people/{bob.pk}/", do="suspend", **WHY).status_code == 403


def test_an_account_that_is_not_there_is_not_found(client, mona):
    client.force_login(mona)
    assert client.get("/moderation/people/99999/").status_code == 404


def test_a_moderator_gives_an_account_more_room_and_an_administrator_is_not_asked(
        client, alice, mona, ada):
    address = f"/moderation/people/{alice.pk}/"
    client.force_login(mona)
    page = client.get(address).content.decode()
    assert "Photos and logs take 0.0 of 5 GB; 0 of 50 sheets are open." in page
    client.post(address, {"act": "room", "times": "5"})
    alice.refresh_from_db()
    assert alice.room == 5
    assert "Choose one of the sizes." in client.post(
        address, {"act": "room", "times": "1000"}).content.decode()
    client.force_login(ada)
    client.post(address, {"act": "room", "times": "20"})
    alice.refresh_from_db()
    assert alice.room == 5 and "Give this room" not in client.get(address).content.decode()
