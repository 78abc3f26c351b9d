"""The verdict to embed: it follows the record, and never outlives it."""
from xml.etree.ElementTree import fromstring

import pytest
from django.utils import timezone

from teardowns.models import Status, Unit
from tests.views.printed import public_unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def unit():
    return public_unit("01-brethuld-b5.json")


def said(client, address):
    answer = client.get(address)
    assert answer.status_code == 200 and answer["Content-Type"].startswith("image/svg+xml")
    return " | ".join(filter(None, fromstring(answer.content).itertext()))


def test_it_speaks_of_the_unit_examined_and_never_of_power_alone(client, unit):
    words = said(client, f"/units/{unit.pk}/badge.svg")
    assert words.startswith("Unit examined: ")
    assert "The evidence" in words and "Insulation" in words


@pytest.mark.parametrize("change, words", [
    ({"status": Status.WITHDRAWN}, "was withdrawn"),
    ({"quarantined_at": timezone.now()}, "no public record"),
    ({"status": Status.DRAFT, "publication": None}, "no public record"),
])
def test_what_is_not_public_shows_no_verdict(client, unit, change, words):
    """Status 200, for a page elsewhere would go on showing the picture that it has."""
    Unit.objects.filter(pk=unit.pk).update(**change)
    for address in (f"/units/{unit.pk}/badge.svg", f"/units/{unit.pk}/versions/1/badge.svg"):
        shown = said(client, address)
        assert words in shown and "claim" not in shown


def test_a_record_that_never_was_looks_like_one_that_is_hidden(client, unit):
    Unit.objects.filter(pk=unit.pk).update(quarantined_at=timezone.now())
    assert said(client, "/units/987654/badge.svg") == said(client, f"/units/{unit.pk}/badge.svg")


def test_caches_ask_again_soon_and_are_told_when_nothing_moved(client, unit):
    first = client.get(f"/units/{unit.pk}/badge.svg")
    assert "max-age=300" in first["Cache-Control"]
    again = client.get(f"/units/{unit.pk}/badge.svg",
                       headers={"if-none-match": first["ETag"]})
    assert again.status_code == 304


def test_other_sites_may_show_it_and_nothing_in_it_runs(client, unit):
    answer = client.get(f"/units/{unit.pk}/badge.svg")
    assert answer["Cross-Origin-Resource-Policy"] == "cross-origin"
    assert answer["Content-Security-Policy"].startswith("default-src 'none'")
    assert not any(sign in answer.content.decode() for sign in ("<script", "href", "onload"))
