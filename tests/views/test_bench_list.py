import pytest
from django.urls import reverse

from teardowns.models import Unit
from teardowns.services.assess_units import assess_units

pytestmark = pytest.mark.django_db
URL = "/bench/"


def test_it_lists_one_s_own_open_sheets_with_their_verdict(client, alice, bob, unit):
    Unit.objects.create(contributor=bob, title="Bob's own")
    Unit.objects.create(contributor=alice, title="Sent in", status="submitted")
    assess_units([unit])
    client.force_login(alice)
    page = client.get(URL).content.decode()
    assert reverse("bench_section", args=[unit.pk, "origin"]) in page
    assert "Bob&#x27;s own" not in page and "Sent in" not in page


def test_an_empty_list_says_how_to_start(client, bob):
    client.force_login(bob)
    page = client.get(URL).content.decode()
    assert "No sheet is open" in page and reverse("bench_new") in page


def test_it_defers_to_qualified_people(client, bob):
    client.force_login(bob)
    assert "not a safety certificate" in client.get(URL).content.decode()


def test_anonymous_is_led_to_sign_in(client):
    assert client.get(URL).url == "/sign-in/?next=/bench/"


def test_it_rejects_post(client, alice):
    client.force_login(alice)
    assert client.post(URL).status_code == 405


def test_many_sheets_take_no_more_queries(client, alice, django_assert_max_num_queries):
    for i in range(5):
        assess_units([Unit.objects.create(contributor=alice, title=f"Unit {i}")])
    client.force_login(alice)
    with django_assert_max_num_queries(4):
        client.get(URL)
