"""Taking on a review takes a word on conflicts; giving it back takes none."""
from uuid import uuid4

import pytest

from teardowns.models import Review, Unit
from tests.reviews import handed_in, take_on

pytestmark = pytest.mark.django_db


@pytest.fixture
def waiting(unit, rita, client):
    client.force_login(rita)
    return handed_in(unit)


def claim(client, unit, **said):
    return client.post(f"/reviews/{unit.pk}/claim/", said)


def test_who_has_no_conflict_goes_on_to_the_review(client, waiting, rita):
    assert claim(client, waiting, declared="none").url == f"/reviews/{waiting.pk}/"
    assert Review.objects.get().reviewer == rita


def test_a_conflict_is_kept_and_leads_back_to_the_queue(client, waiting):
    answer = claim(client, waiting, declared="some", conflict="I work for its maker")
    assert answer.url == "/reviews/" and Review.objects.get().conflict == "I work for its maker"
    assert client.get(f"/reviews/{waiting.pk}/").status_code == 404


@pytest.mark.parametrize(("said", "words"), [
    ({}, "Say whether you have a conflict"),
    ({"declared": "some"}, "Say which conflict it is"),
    ({"declared": "none", "conflict": "A cousin"}, "chose “none”"),
    ({"declared": "maybe"}, "Select a valid choice")])
def test_half_an_answer_is_told_and_kept(client, waiting, said, words):
    answer = claim(client, waiting, **said)
    page = answer.content.decode()
    assert answer.status_code == 200 and words in page and Review.objects.count() == 0
    assert said.get("conflict", "") in page


def test_a_review_that_cannot_be_taken_on_says_why(client, waiting, rita):
    Unit.objects.update(contributor=rita)
    page = claim(client, waiting, declared="none").content.decode()
    assert "This work is your own" in page and Review.objects.count() == 0


def test_a_form_sent_twice_claims_once(client, waiting):
    once = str(uuid4())
    for _ in range(2):
        assert claim(client, waiting, declared="none", once=once).status_code == 302
    assert Review.objects.count() == 1


def test_what_does_not_wait_is_not_there(client, waiting):
    for status in ("draft", "sent_back", "published", "discarded"):
        Unit.objects.update(status=status)
        assert client.get(f"/reviews/{waiting.pk}/claim/").status_code == 404
    assert client.get("/reviews/999/claim/").status_code == 404


def test_the_claim_tells_no_more_than_the_queue(client, waiting):
    page = client.get(f"/reviews/{waiting.pk}/claim/").content.decode()
    assert waiting.title in page and "alice" not in page


def test_a_review_is_given_back(client, waiting, rita):
    take_on(rita, waiting)
    assert client.post(f"/reviews/{waiting.pk}/release/").url == "/reviews/"
    assert Review.objects.get().ending == "released"
    assert client.post(f"/reviews/{waiting.pk}/release/").status_code == 404


@pytest.mark.parametrize(("who", "status"), [
    ("alice", 403), ("mona", 403), ("ada", 403), ("", 302)])
def test_only_reviewers_take_on_and_give_back(client, waiting, request, who, status):
    client.logout()
    if who:
        client.force_login(request.getfixturevalue(who))
    assert claim(client, waiting, declared="none").status_code == status
    assert client.post(f"/reviews/{waiting.pk}/release/").status_code == status
    assert Review.objects.count() == 0


def test_a_suspended_reviewer_takes_on_nothing(client, waiting, rita):
    type(rita).objects.filter(pk=rita.pk).update(suspended_at="2026-01-01T00:00Z")
    assert claim(client, waiting, declared="none").status_code == 403
