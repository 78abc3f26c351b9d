"""The end of a review."""
import pytest

from teardowns.models import Review
from tests.reviews import decide, handed_in, take_on

pytestmark = pytest.mark.django_db


@pytest.fixture
def held(unit, rita, client):
    handed_in(unit)
    take_on(rita, unit)
    client.force_login(rita)
    return unit


def close(client, unit, remark="All well seen"):
    return client.post(f"/reviews/{unit.pk}/close/", {"remark": remark})


def test_a_review_with_everything_decided_is_closed_with_its_remark(client, held, rita):
    decide(rita, held)
    assert close(client, held).url == "/reviews/"
    assert Review.objects.get().remark == "All well seen"


def test_what_is_left_is_told_and_the_remark_kept(client, held):
    answer = close(client, held)
    page = answer.content.decode()
    assert answer.status_code == 200 and Review.objects.get().closed_at is None
    assert "1 row is still without your decision" in page and "All well seen" in page


def test_a_remark_that_is_too_long_is_told(client, held, rita):
    decide(rita, held)
    assert "at most 2000 characters" in close(client, held, "x" * 2001).content.decode()


@pytest.mark.parametrize(("who", "status"), [
    ("rolf", 404), ("alice", 403), ("mona", 403), ("", 302)])
def test_only_who_holds_it_closes_it(client, held, request, who, status):
    client.logout()
    if who:
        client.force_login(request.getfixturevalue(who))
    assert close(client, held).status_code == status


def test_it_answers_posts_alone(client, held):
    assert client.get(f"/reviews/{held.pk}/close/").status_code == 405
