"""The list of versions: which, when, by whom, why, what they said; any two to compare."""
import pytest

from teardowns.models import Unit
from tests.corrections import WHY, corrected, public_unit
from tests.views.versions import address, page, two_versions


@pytest.fixture
def unit(alice, bob, mona):
    return two_versions(alice, bob, mona)


def test_every_version_stands_with_who_published_it_and_why(client, unit):
    text = page(client, unit, "versions/")
    assert text.index("Version 2") < text.index("Version 1")
    assert ", by mona" in text and ", by publisher" in text
    assert WHY in text and "Correction by bob" in text and "First version." in text
    assert "stands now" in text and "rulebook: edition" in text


def test_it_says_the_verdict_of_the_day(client, unit):
    word = unit.publications.get(number=1).assessment.verdict
    assert word and page(client, unit, "versions/").count(f">{word}</span>") == 2


def test_any_two_are_compared_as_they_were_chosen(client, unit):
    response = client.get(address(unit, "versions/"), {"was": 1, "now": 2})
    assert response.url == address(unit, "versions/2/against/1/")


@pytest.mark.parametrize("was, now", [("1", "1"), ("1", "9"), ("x", "2"), ("", "2"), ("²", "1")])
def test_a_choice_that_makes_no_sense_shows_the_list(client, unit, was, now):
    assert client.get(address(unit, "versions/"), {"was": was, "now": now}).status_code == 200


def test_an_open_correction_is_told_to_everybody_and_leads_its_author_to_the_bench(
        client, unit, bob, rita):
    corrected(unit, bob)
    assert "bob has a correction of this record open since" in page(client, unit, "versions/")
    client.force_login(bob)
    text = page(client, unit, "versions/")
    assert "You have a correction" in text and "Go on with it" in text
    assert "Propose a correction" not in text


@pytest.mark.parametrize("name, may", [("alice", True), ("mona", True), ("bob", False),
                                       ("rita", False), ("ada", False)])
def test_withdrawing_is_offered_to_whom_it_is_open(client, unit, name, may, request):
    client.force_login(request.getfixturevalue(name))
    assert ("Withdraw this record" in page(client, unit, "versions/")) is may


def test_a_draft_has_none_and_is_nobody_elses_business(client, alice):
    draft = Unit.objects.create(contributor=alice, title="Draft")
    assert client.get(address(draft, "versions/")).status_code == 404
    client.force_login(alice)
    assert "No version is public yet" in page(client, draft, "versions/")


def test_only_reading(client, unit):
    assert client.post(address(unit, "versions/")).status_code == 405


def test_it_asks_at_most_twelve_queries(client, unit, alice, django_assert_max_num_queries):
    client.force_login(alice)
    with django_assert_max_num_queries(12):
        page(client, unit, "versions/")


def test_a_unit_without_a_further_version_has_nothing_to_compare(client, alice):
    assert "Compare any two" not in page(client, public_unit(alice), "versions/")
