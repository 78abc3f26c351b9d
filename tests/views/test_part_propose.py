"""Proposing: what is typed is kept, sent twice it counts once, stale texts stand side by side."""
from uuid import uuid4

import pytest

from teardowns.models import Part, PartProposal
from tests.library import POWER, SOURCE, listed, new_limit

pytestmark = pytest.mark.django_db
NEW = "/parts/propose/"
SENT = {"marking": "KR905", "function": "optocoupler", "why": "On three boards."}


@pytest.fixture
def part(mona):
    return listed(mona)


def of(part, what, limit=False):
    number = f"&limit={part.limits.get().pk}" if limit else ""
    return f"/parts/{part.pk}/propose/?what={what}{number}"


@pytest.mark.parametrize("what", ["description", "limit", "superseded"])
def test_each_form_opens_with_what_stands_now(client, alice, part, what):
    client.force_login(alice)
    page = client.get(of(part, what))
    assert page.status_code == 200 and page.context["form"]["seen"].value() == 1


@pytest.mark.parametrize("what", ["limit_changed", "limit_removed"])
def test_a_limit_s_forms_say_what_it_is_now(client, alice, part, what):
    client.force_login(alice)
    assert "12\u202fW now" in client.get(of(part, what, limit=True)).content.decode()


@pytest.mark.parametrize("address", [
    "/parts/propose/?what=limit", "/parts/{pk}/propose/", "/parts/{pk}/propose/?what=part",
    "/parts/{pk}/propose/?what=limit_changed", "/parts/{pk}/propose/?what=limit_changed&limit=0",
    "/parts/{pk}/propose/?what=limit_removed&limit=x", "/parts/0/propose/?what=limit"])
def test_an_address_that_nobody_links_to_is_not_found(client, alice, part, address):
    client.force_login(alice)
    assert client.get(address.format(pk=part.pk)).status_code == 404


def test_a_reader_signs_in_first_and_an_administrator_proposes_nothing(client, ada):
    assert client.get(NEW).status_code == 302
    client.force_login(ada)
    assert client.post(NEW, SENT).status_code == 403


def test_who_is_not_in_good_standing_proposes_nothing(client, alice):
    client.force_login(alice)
    type(alice).objects.update(email_verified_at=None)
    assert client.post(NEW, SENT).status_code == 403 and not PartProposal.objects.exists()


def test_a_new_part_is_proposed_and_its_proposer_sees_it_wait(client, alice):
    client.force_login(alice)
    page = client.post(NEW, SENT, follow=True)
    made = PartProposal.objects.get()
    assert page.redirect_chain == [(f"/parts/proposals/{made.pk}/", 302)]
    assert "waits for a moderator" in page.content.decode() and not Part.objects.exists()


def test_a_marking_from_the_bench_is_filled_in(client, alice):
    client.force_login(alice)
    page = client.get(f"{NEW}?marking=KR905+B")
    assert page.context["form"]["marking"].value() == "KR905 B"


def test_a_part_of_nearly_the_same_name_is_shown(client, alice, mona):
    listed(mona, "KR-905")
    client.force_login(alice)
    assert client.get(f"{NEW}?marking=kr905").context["alike"].marking == "KR-905"
    assert client.get(f"{NEW}?marking=kr90").context["alike"] is None


def test_bad_input_keeps_what_was_typed(client, alice, part):
    client.force_login(alice)
    page = client.post(of(part, "limit"), {
        "quantity": POWER, "value": "twelve", "why": "Its sheet says so.", "seen": 1, **SOURCE})
    form = page.context["form"]
    assert page.status_code == 200 and "value" in form.errors
    assert form["why"].value() == "Its sheet says so." and not PartProposal.objects.exists()


def test_sent_twice_it_is_proposed_once(client, alice):
    client.force_login(alice)
    key = {"once": str(uuid4())}
    first, second = client.post(NEW, SENT | key), client.post(NEW, SENT | key)
    assert first["Location"] == second["Location"]
    assert PartProposal.objects.count() == 1


def test_a_part_that_changed_meanwhile_stands_beside_what_was_typed(client, alice, part):
    client.force_login(alice)
    sent = {"value": "13 W", "why": "Rev. 3.", "seen": 1, **SOURCE}
    address = of(part, "limit_changed", limit=True)
    Part.objects.update(version=2)
    part.limits.update(value=14.0)
    page = client.post(address, sent)
    text = page.content.decode()
    assert page.status_code == 200 and "14\u202fW" in text and "13 W" in text
    assert not PartProposal.objects.exists()
    client.post(address, sent | {"seen": page.context["form"]["seen"].value()})
    assert PartProposal.objects.get().before_value == 14.0


def test_a_declined_proposal_can_be_worded_anew_by_who_made_it(client, alice, bob, part):
    made = new_limit(alice, part, 13.0)
    address = f"/parts/{part.pk}/propose/?what=limit&again={made.pk}"
    client.force_login(alice)
    assert client.get(address).context["form"]["value"].value() == "13 W"
    client.force_login(bob)
    assert not client.get(address).context["form"]["value"].value()


def test_the_form_costs_at_most_twelve_queries(client, alice, part, django_assert_max_num_queries):
    client.force_login(alice)
    with django_assert_max_num_queries(12):
        client.post(of(part, "limit"), {"quantity": POWER, "value": "x", "seen": 1})
