"""For whoever made or sold a unit: its record, and how it is answered."""
import pytest
from django.urls import reverse

from tests.views.listed import listed

pytestmark = pytest.mark.django_db


def page(client, **query):
    response = client.get(reverse("for_makers"), query)
    assert response.status_code == 200
    return response.content.decode()


def test_it_rejects_post(client):
    assert client.post(reverse("for_makers")).status_code == 405


def test_the_front_page_and_every_foot_lead_to_it(client):
    assert client.get("/").content.decode().count(f'href="{reverse("for_makers")}"') == 2


def test_it_finds_records_by_maker_and_leads_to_their_replies(client):
    unit = listed("A charger", maker="Corven", model="CV-45")
    listed("Brenndorf brick", maker="Brenndorf")
    shown = page(client, q="corven")
    assert f'href="{reverse("unit_replies", args=[unit.pk])}"' in shown
    assert "1 unit" in shown and "Brenndorf brick" not in shown


def test_what_is_not_public_is_not_found(client):
    listed("A draft", status="draft", maker="Corven")
    shown = page(client, q="corven")
    assert "A draft" not in shown and "No published unit has these words" in shown


def test_a_name_that_nothing_has_leads_to_near_ones(client):
    listed("A charger", maker="Brenndorf")
    assert '<a href="?q=Brenndorf" translate="no">Brenndorf</a>' in page(client, q="brendarfix")


def test_what_is_typed_is_shown_and_is_no_markup(client):
    shown = page(client, q='"><b>')
    assert 'value="&quot;&gt;&lt;b&gt;"' in shown


def test_without_a_question_nothing_was_looked_for(client):
    assert 'id="found"' not in page(client)


def test_a_search_takes_at_most_twelve_queries(client, django_assert_max_num_queries):
    for day in range(1, 5):
        listed(f"Unit {day}", maker="Corven", day=day)
    with django_assert_max_num_queries(12):
        page(client, q="corven")


def test_near_names_of_parts_lead_to_where_parts_are(client, monkeypatch):
    from teardowns.services.near_names import NearName
    found = [NearName("part", "BQ 40"), NearName("board family", "Hub"), NearName("model", "CV")]
    monkeypatch.setattr("teardowns.views.for_makers.near_names", lambda text: found)
    shown = page(client, q="nothing-like-this")
    assert 'href="/parts/?q=BQ+40"' in shown and 'href="/units/?q=Hub"' in shown
    assert 'href="?q=CV"' in shown
