"""A version at its permanent address; what another rulebook says of the one that stands."""
import pytest

from teardowns.models import Publication
from teardowns.services import reassess_publications as service
from tests.corrections import GAP, corrected, public_unit, write
from tests.services.test_reassess_publications import another_rulebook
from tests.views.versions import address, page, two_versions


@pytest.fixture
def unit(alice, bob, mona):
    return two_versions(alice, bob, mona)


def test_an_older_one_is_as_it_was_and_says_what_has_changed_since(client, unit):
    text = page(client, unit, "versions/1/")
    assert "12.30 ± 0.10 W" in text and "13.00" not in text
    assert "Version 2 stands now" in text and "1 added, 1 removed, 1 changed" in text
    assert f'href="{address(unit, "versions/2/against/1/")}"' in text


def test_the_newest_says_no_such_thing(client, unit):
    text = page(client, unit, "versions/2/")
    assert "13.00 ± 0.10 W" in text and "stands now" not in text


def test_the_public_sees_its_version_while_a_correction_is_written(client, alice, bob):
    unit = public_unit(alice)
    before = page(client, unit)
    corrected(unit, bob)
    write(unit)
    assert page(client, unit) == before


def test_an_older_one_is_the_same_after_another_rulebook_came_into_force(
        client, unit, monkeypatch):
    before = page(client, unit, "versions/1/")
    another_rulebook(monkeypatch)
    service.reassess_slice()
    assert page(client, unit, "versions/1/") == before


def test_was_and_is_now_stand_beside_the_verdict_that_a_rulebook_moved(
        client, alice, monkeypatch, django_assert_max_num_queries):
    unit = public_unit(alice, gaps=[GAP])
    assert "Was / is now" not in page(client, unit)
    another_rulebook(monkeypatch, scenarios=())
    service.reassess_slice()
    with django_assert_max_num_queries(12):
        text = page(client, unit)
    assert "Was / is now: another rulebook has come into force since, and moved the gravest" in text
    assert "scenarios risk9-0a1b2c3d now" in text and "/method/changes/" in text


def test_a_rulebook_that_moved_no_word_is_named_and_no_more(client, alice, monkeypatch):
    unit = public_unit(alice)
    another_rulebook(monkeypatch)
    service.reassess_slice()
    text = page(client, unit)
    assert "every verdict word and level stayed" in text and "Was / is now" not in text


def test_nothing_of_a_version_is_altered_by_all_that(client, unit, alice, monkeypatch):
    kept = ("document", "frozen", "assessment", "assessment_all", "note", "moderator", "title",
            "published_at", "number", "correction", "words")
    before = list(Publication.objects.order_by("pk").values(*kept))
    corrected(unit, alice)
    another_rulebook(monkeypatch)
    service.reassess_slice()
    assert list(Publication.objects.order_by("pk").values(*kept)) == before
