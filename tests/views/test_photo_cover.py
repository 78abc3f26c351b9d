"""What is private is covered: by a moderator on any photo, by its contributor on an open sheet."""
import pytest
from django.urls import reverse

from tests.published import published

pytestmark = pytest.mark.django_db
REGION = {"points": "0,0 120,90", "reason": "address on a parcel label"}


@pytest.fixture
def address(photo):
    published(photo.unit)
    return reverse("photo_cover", args=[photo.unit_id, photo.key])


def test_it_covers_and_leads_back_to_the_photo(client, mona, photo, address):
    client.force_login(mona)
    assert client.get(address).status_code == 200
    assert client.post(address, REGION).url == photo.get_absolute_url()
    assert photo.covers.get().box == [0.0, 0.0, 120.0, 90.0]


def test_a_box_may_be_drawn_from_any_corner(client, mona, photo, address):
    client.force_login(mona)
    client.post(address, REGION | {"points": "120,90 20,10"})
    assert photo.covers.get().box == [20.0, 10.0, 100.0, 80.0]


@pytest.mark.parametrize("field, typed, words", [
    ("points", "", "Draw on the picture first"), ("points", "0,0 9999,9", "outside the picture"),
    ("reason", "", "Say what is covered")])
def test_bad_input_says_what_to_do_and_keeps_what_was_typed(
        client, mona, photo, address, field, typed, words):
    client.force_login(mona)
    page = client.post(address, REGION | {field: typed}).content.decode()
    kept = {"points": "address on a parcel label", "reason": "0,0 120,90"}[field]
    assert words in page and kept in page and not photo.covers.exists()


def test_its_contributor_covers_while_the_sheet_is_open_and_comes_back_to_the_ticks(
        client, alice, photo):
    address = reverse("photo_cover", args=[photo.unit_id, photo.key])
    client.force_login(alice)
    assert client.get(address).status_code == 200
    answer = client.post(f"{address}?back=submit", REGION)
    assert answer.url == f"/bench/{photo.unit_id}/submit/#check-{photo.key}"
    assert photo.covers.get().author == alice


def test_after_that_neither_its_contributor_nor_a_reviewer_does(client, alice, rita, address):
    for person in (alice, rita):
        client.force_login(person)
        assert client.get(address).status_code == 404
        assert client.post(address, REGION).status_code == 404


def test_what_was_covered_before_is_listed(client, mona, photo, address):
    client.force_login(mona)
    client.post(address, REGION)
    assert "address on a parcel label" in client.get(address).content.decode()
