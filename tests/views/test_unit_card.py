"""The preview picture of a record."""
import io

import pytest
from PIL import Image

from teardowns.printouts import preview_card
from tests.views.printed import public_unit

pytestmark = pytest.mark.django_db


@pytest.fixture
def unit():
    return public_unit("01-brethuld-b5.json")


def test_it_is_a_png_of_the_size_that_it_says(client, unit):
    answer = client.get(f"/units/{unit.pk}/card.png")
    image = Image.open(io.BytesIO(answer.content))
    assert (image.format, image.size) == ("PNG", (1200, 630))
    assert answer["Cross-Origin-Resource-Policy"] == "cross-origin"


def test_it_is_drawn_once_for_all_who_ask(client, unit, monkeypatch):
    first = client.get(f"/units/{unit.pk}/card.png").content
    monkeypatch.setattr(preview_card, "drawn_card", None)
    assert client.get(f"/units/{unit.pk}/card.png").content == first


def test_the_two_ends_of_its_foot_do_not_meet():
    longest = "Insulation: 99 points fall short, 99 open"
    ends = (preview_card.width_of(longest, "bold", 24),
            preview_card.width_of(preview_card.ONE_UNIT, "sans", 18))
    assert sum(ends) + 24 < preview_card.ROOM


def test_what_is_not_public_has_none(client):
    assert client.get("/units/987654/card.png").status_code == 404
