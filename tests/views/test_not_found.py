"""What is not found, below a withdrawn record and elsewhere."""
import pytest

from teardowns.services.withdraw_unit import withdraw_unit
from tests.corrections import public_unit


@pytest.fixture
def stone(alice):
    unit = public_unit(alice)
    withdraw_unit(by=alice, unit_pk=unit.pk, code="spam", facts="It advertises a shop.")
    return unit


def test_pages_below_a_withdrawn_record_lead_to_its_tombstone(client, stone):
    response = client.get(f"/units/{stone.pk}/photos/board-top/")
    assert response.status_code == 410 and "It advertises a shop." in response.content.decode()


@pytest.mark.parametrize("path", ["/units/{}/nothing/", "/nothing/", "/parts/999999/",
                                  "/units/999999/", "/units/999999/photos/a/"])
def test_all_else_is_not_found_as_usual(client, stone, path):
    assert client.get(path.format(stone.pk)).status_code == 404


def test_nor_is_anything_sent_to_it(client, stone, alice):
    client.force_login(alice)
    assert client.post(f"/units/{stone.pk}/versions/").status_code == 405
