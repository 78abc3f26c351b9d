import pytest
from django.urls import reverse

from core.audit.models import Entry
from teardowns.models import Unit
from tests.handing_in import STATES, correction_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def address(unit):
    return reverse("bench_discard", args=[unit.pk])


def test_it_asks_first_and_then_discards(client, alice, unit, address):
    client.force_login(alice)
    page = client.get(address).content.decode()
    assert "Its entries, their history and the files are kept" in page
    assert client.post(address, {"reason": "Wrong unit."}).url == "/bench/"
    assert Unit.objects.get().status == "discarded"
    assert Entry.objects.get(action="work_discard").reason == "Wrong unit."
    assert unit.title not in client.get("/bench/").content.decode().partition("<section")[2]


def test_of_a_correction_it_drops_the_correction_alone(client, bob, unit, address):
    correction = correction_of(unit, bob)
    client.force_login(bob)
    assert "Drop your correction" in client.get(address).content.decode()
    client.post(address)
    correction.refresh_from_db()
    assert correction.status == "discarded" and Unit.objects.get().status == "published"


@pytest.mark.parametrize("state", [each for each in STATES if each not in ("draft", "sent_back")])
def test_what_is_handed_in_or_public_is_not_found_here(client, alice, address, state):
    Unit.objects.update(status=state)
    client.force_login(alice)
    assert client.get(address).status_code == client.post(address).status_code == 404
    assert Unit.objects.get().status == state


@pytest.mark.parametrize("who", ["bob", "rita", "mona"])
def test_others_find_nothing(client, address, who, request):
    client.force_login(request.getfixturevalue(who))
    assert client.get(address).status_code == client.post(address).status_code == 404


def test_a_long_reason_is_cut_and_no_trouble(client, alice, address):
    client.force_login(alice)
    assert client.post(address, {"reason": "x" * 5000}).status_code == 302
    assert len(Entry.objects.get(action="work_discard").reason) == 300
