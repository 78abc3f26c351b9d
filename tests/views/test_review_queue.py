"""The page of the queue."""
from datetime import timedelta

import pytest
from django.utils import timezone

from teardowns.models import Status, Unit
from tests.cast import person
from tests.reviews import take_on

pytestmark = pytest.mark.django_db
ADDRESS = "/reviews/"


def waiting(contributor, title="Lamplit L5", **unit):
    return Unit.objects.create(contributor=contributor, title=title, status=Status.SUBMITTED,
                               submitted_at=timezone.now() - timedelta(days=9), **unit)


def page(client, address=ADDRESS):
    return client.get(address).content.decode()


def test_each_line_says_why_it_stands_there(client, rita, alice):
    waiting(alice, listing_reach=12_000)
    client.force_login(rita)
    text = page(client)
    assert "its listing shows 12\u202f000 sales, no claim judged yet, waiting 9 days" in text
    assert "nobody" in text


def test_it_leads_to_the_claim_and_from_then_on_to_the_review(client, rita, alice):
    unit = waiting(alice)
    client.force_login(rita)
    assert f'href="/reviews/{unit.pk}/claim/"' in page(client)
    take_on(rita, unit)
    text = page(client)
    assert f'href="/reviews/{unit.pk}/"' in text and "You are at it" in text


def test_who_holds_a_claim_is_named_with_the_day(client, rita, rolf, alice):
    take_on(rolf, waiting(alice))
    client.force_login(rita)
    assert f"rolf since {timezone.now().date().isoformat()}" in page(client)


def test_what_is_not_offered_says_why(client, rita):
    waiting(rita, "of my own")
    client.force_login(rita)
    text = page(client)
    assert "Not offered to you" in text and "This work is your own" in text
    assert "Nothing waits for you." in text


def test_sixty_lines_stand_on_pages_and_cost_few_queries(
        client, rita, django_assert_max_num_queries):
    for number in range(60):
        waiting(person(f"c{number}"), f"unit {number}")
    client.force_login(rita)
    with django_assert_max_num_queries(12):
        text = page(client)
    assert text.count("/claim/") == 25 and 'href="?page=2"' in text
    assert page(client, f"{ADDRESS}?page=3").count("/claim/") == 10


def test_the_hazards_and_the_ties_are_linked(client, rita):
    client.force_login(rita)
    assert 'href="/hazards/"' in page(client) and 'href="/reviews/ties/"' in page(client)


@pytest.mark.parametrize(("who", "status"), [
    ("alice", 403), ("mona", 403), ("ada", 403), ("", 302)])
def test_it_is_the_reviewers_page(client, request, who, status):
    if who:
        client.force_login(request.getfixturevalue(who))
    assert client.get(ADDRESS).status_code == status


def test_without_a_second_factor_a_reviewer_is_asked_for_it(client, rita):
    client.force_login(rita, second_factor=False)
    assert client.get(ADDRESS).status_code == 302


def test_other_methods_are_refused(client, rita):
    client.force_login(rita)
    assert client.post(ADDRESS).status_code == 405
