"""The picture straight from above: a field seen aslant becomes the rectangle that it is."""
from io import BytesIO

import pytest
from django.urls import reverse
from PIL import Image, ImageDraw

from core.policy import POLICY, SIGNED_IN
from teardowns.services.receive_photo import receive_photo
from teardowns.services.scale_photo import scale_photo

pytestmark = pytest.mark.django_db
CORNERS = ((100.0, 100.0), (500.0, 100.0), (560.0, 400.0), (40.0, 400.0))     # seen aslant


@pytest.fixture
def aslant(alice, unit, tmp_path):
    """A red field of 40 by 20 mm whose far side looks shorter."""
    image = Image.new("RGB", (600, 480), "white")
    ImageDraw.Draw(image).polygon(CORNERS, fill="red")
    image.save(tmp_path / "aslant.png")
    return receive_photo(contributor=alice, unit_pk=unit.pk, name="aslant.png",
                         path=tmp_path / "aslant.png").photo


def view_of(client, photo):
    return client.get(reverse("photo_from_above", args=[photo.unit_id, photo.key]))


def test_the_field_is_upright_and_twice_as_wide_as_high(client, alice, aslant):
    scale_photo(author=alice, photo=aslant, points=CORNERS, lengths=[0.04, 0.02], length_u=1e-5)
    client.force_login(alice)
    answer = view_of(client, aslant)
    red = Image.open(BytesIO(answer.content)).convert("RGB").getchannel("G").point(
        lambda green: 255 * (green < 100))
    black = Image.open(BytesIO(answer.content)).convert("RGB").getchannel("R").point(
        lambda value: 255 * (value > 200))
    left, top, right, bottom = Image.composite(red, Image.new("L", red.size), black).getbbox()
    assert (right - left) / (bottom - top) == pytest.approx(2.0, rel=0.03)
    assert answer["Cache-Control"].startswith("private")


def test_without_four_corners_there_is_no_such_view(client, alice, aslant):
    client.force_login(alice)
    assert view_of(client, aslant).status_code == 404


def test_it_costs_work_and_is_for_people_who_are_signed_in(client, aslant):
    assert POLICY["photo_from_above"] == {"GET": SIGNED_IN}
    assert view_of(client, aslant).status_code == 302


def test_nobody_sees_a_draft_of_somebody_else_from_above(client, bob, aslant):
    client.force_login(bob)
    assert view_of(client, aslant).status_code == 404
