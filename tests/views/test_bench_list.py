import pytest
from django.urls import reverse
from django.utils import timezone

from teardowns.models import Unit
from teardowns.services.assess_units import assess_units
from tests.handing_in import correction_of, remark_on

pytestmark = pytest.mark.django_db
URL = "/bench/"


def test_it_lists_one_s_own_open_sheets_with_their_verdict(client, alice, bob, unit):
    Unit.objects.create(contributor=bob, title="Bob's own")
    Unit.objects.create(contributor=alice, title="Sent in", status="submitted")
    assess_units([unit])
    client.force_login(alice)
    page = client.get(URL).content.decode()
    opened, handed_in = page.split("<h2>Handed in</h2>")
    assert reverse("bench_section", args=[unit.pk, "origin"]) in opened
    assert "Sent in" not in opened and "waiting for review" in handed_in
    assert "Bob&#x27;s own" not in page


def test_what_was_sent_back_says_with_how_many_remarks(client, alice, unit, mona):
    Unit.objects.update(status="sent_back")
    for _ in range(2):
        remark_on(unit, mona)
    client.force_login(alice)
    assert "sent back with 2 remarks" in client.get(URL).content.decode()


def test_a_public_one_says_its_version_and_whose_correction_is_open(client, alice, bob, unit):
    correction_of(unit, bob)
    client.force_login(alice)
    page = client.get(URL).content.decode()
    assert "published, version 1; somebody else’s correction is open" in page
    client.force_login(bob)
    page = client.get(URL).content.decode()
    assert "your correction: draft" in page
    assert reverse("bench_section", args=[unit.pk, "origin"]) in page


def test_remarks_on_the_first_version_are_no_remarks_on_a_correction(client, alice, mona, unit):
    remark_on(unit, mona)
    correction_of(unit, alice, status="sent_back")
    client.force_login(alice)
    assert "your correction: sent back<" in client.get(URL).content.decode()


def test_what_a_moderator_looks_into_says_so_and_is_not_open(client, alice, unit):
    Unit.objects.update(quarantined_at=timezone.now())
    client.force_login(alice)
    page = client.get(URL).content.decode()
    assert "No sheet is open" in page and "hidden while a moderator looks into it" in page


def test_what_is_discarded_is_gone(client, alice, unit):
    Unit.objects.update(status="discarded")
    client.force_login(alice)
    assert unit.title not in client.get(URL).content.decode()


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
    with django_assert_max_num_queries(6):
        client.get(URL)
