import pytest
from django.contrib.messages import get_messages
from django.urls import reverse

from teardowns.models import Unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def address(unit):
    return reverse("bench_take_back", args=[unit.pk])


def test_it_is_taken_back_and_leads_to_the_form(client, alice, unit, address):
    Unit.objects.update(status="in_review")
    client.force_login(alice)
    assert client.post(address).url == reverse("bench_submit", args=[unit.pk])
    assert Unit.objects.get().status == "draft"


def test_too_late_it_says_where_it_stands(client, alice, address):
    Unit.objects.update(status="sent_back")
    client.force_login(alice)
    said = [str(message) for message in get_messages(client.post(address).wsgi_request)]
    assert "is sent back, so it cannot be taken back now" in said[0]


def test_it_rejects_get(client, alice, address):
    client.force_login(alice)
    assert client.get(address).status_code == 405


@pytest.mark.parametrize("who", ["bob", "rita", "mona"])
def test_others_find_nothing(client, address, who, request):
    Unit.objects.update(status="submitted")
    client.force_login(request.getfixturevalue(who))
    assert client.post(address).status_code == 404
    assert Unit.objects.get().status == "submitted"
