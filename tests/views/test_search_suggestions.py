"""What the search box offers: JSON, the same for everybody."""
import pytest

from tests.indexed import indexed

pytestmark = pytest.mark.django_db
ADDRESS = "/units/suggestions.json"


def offered(client, typed):
    answer = client.get(ADDRESS, {"q": typed})
    assert answer.status_code == 200
    return [(one["text"], one["address"]) for one in answer.json()["suggestions"]]


def test_names_are_offered_with_the_address_that_searches_for_them(client):
    indexed(1, makers=["Umberlisk"], models=["Hub 65"])
    assert offered(client, "umb") == [("Umberlisk", "/units/?q=Umberlisk"),
                                      ("Umberlisk Hub 65", "/units/?q=Umberlisk+Hub+65")]


@pytest.mark.parametrize("typed", ["", "(", "\x00", "%", "💥", "x" * 5000])
def test_of_anything_else_nothing_is_offered(client, typed):
    assert offered(client, typed) == []


def test_the_answer_may_be_kept_for_a_minute(client):
    assert client.get(ADDRESS, {"q": "umb"})["Cache-Control"] == "public, max-age=60"


def test_it_is_asked_for_and_never_sent(client):
    assert client.post(ADDRESS, {"q": "umb"}).status_code == 405
