import uuid

import pytest

from teardowns.models import Unit

pytestmark = pytest.mark.django_db
URL = "/bench/new/"


def typed(**changed):
    return {"uid": str(uuid.uuid4()), "unit-title": " Veltrice  VQ-45", "unit-kind": "plug_in",
            "unit-version": "0"} | changed


def test_it_opens_a_sheet_at_its_first_section(client, alice):
    client.force_login(alice)
    response = client.post(URL, typed())
    unit = Unit.objects.get()
    assert response.url == f"/bench/{unit.pk}/origin/"
    assert (unit.title, unit.contributor, unit.status) == ("Veltrice VQ-45", alice, "draft")


def test_a_double_click_opens_one_sheet(client, alice):
    client.force_login(alice)
    fields = typed()
    assert client.post(URL, fields).url == client.post(URL, fields).url
    assert Unit.objects.count() == 1


def test_without_a_title_it_asks_for_one_and_keeps_the_rest(client, alice):
    client.force_login(alice)
    page = client.post(URL, typed(**{"unit-title": " ", "unit-kind": "desktop"})).content.decode()
    assert "write maker, model and power as printed" in page
    assert '<option value="desktop" selected>' in page
    assert not Unit.objects.exists()


def test_the_uid_of_another_s_unit_is_not_found(client, bob, unit):
    client.force_login(bob)
    assert client.post(URL, typed(uid=str(unit.uid))).status_code == 404


def test_a_broken_uid_does_no_harm(client, alice):
    client.force_login(alice)
    assert client.post(URL, typed(uid="x" * 40)).status_code == 302


def test_anonymous_is_led_to_sign_in(client):
    assert client.post(URL, typed()).url.startswith("/sign-in/")


def test_it_rejects_put(client, alice):
    client.force_login(alice)
    assert client.put(URL).status_code == 405


def test_one_sheet_too_many_is_refused_and_what_was_typed_stays(client, alice, unit, settings):
    settings.ACCOUNT_SHEETS = 1
    client.force_login(alice)
    page = client.post("/bench/new/", {"unit-title": "Veltrice VQ-9", "unit-kind": "plug_in"})
    text = page.content.decode()
    assert page.status_code == 200 and "You have 1 open sheets" in text and "Veltrice VQ-9" in text
    assert Unit.objects.count() == 1
