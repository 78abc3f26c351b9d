"""Pictures are for those who may see the unit; the file as it came in is for very few."""
import io

import pytest
from django.core.files.storage import storages
from django.db import connection
from django.test.utils import CaptureQueriesContext
from PIL import Image

from teardowns.models import Status
from teardowns.services.cover_photo import cover_photo
from teardowns.services.describe_photo import take_down_photo
from teardowns.services.hide_now import hide_now
from teardowns.services.photo_files import original_name
from teardowns.services.scale_photo import scale_photo
from teardowns.services.write_comment import write_comment
from tests.photographs import CANARY, photograph
from tests.published import published as publish

pytestmark = pytest.mark.django_db
BOX = (50.0, 50.0, 100.0, 80.0)


@pytest.fixture
def published(unit, photo):
    publish(unit)
    return photo


def picture_of(photo, width=320):
    return f"/units/{photo.unit_id}/photos/{photo.key}/{width}.webp"


def original_of(photo):
    return f"/units/{photo.unit_id}/photos/{photo.key}/original/"


def content_of(response):
    return b"".join(response.streaming_content)


@pytest.mark.parametrize("width", [320, 400])
def test_a_published_picture_is_for_everybody_in_each_of_its_widths(client, published, width):
    response = client.get(picture_of(published, width))
    assert (response.status_code, response.headers["Content-Type"]) == (200, "image/webp")
    assert Image.open(io.BytesIO(content_of(response))).size == (width, width * 300 // 400)


def test_a_picture_carries_nothing_of_the_camera(client, published):
    assert CANARY.encode() not in content_of(client.get(picture_of(published)))


def test_a_published_picture_may_be_kept_for_an_hour_by_anybody(client, published):
    response = client.get(picture_of(published))
    kept = response.headers["Cache-Control"]
    assert "public" in kept and "max-age=3600" in kept
    assert response.headers["ETag"].strip('"').endswith("320.webp")


def test_who_has_it_already_is_told_so(client, published):
    tag = client.get(picture_of(published)).headers["ETag"]
    again = client.get(picture_of(published), headers={"if-none-match": tag})
    assert again.status_code == 304 and again["Cache-Control"] == "public, max-age=3600"
    assert not again.content


def test_what_was_shown_once_is_gone_as_soon_as_it_is_hidden(client, published, alice, mona, unit):
    write_comment(author=alice, thing=unit, text="Where was it bought?")       # a log begins
    for _ in range(2):
        answer = client.get(picture_of(published))
        assert answer.status_code == 200 and content_of(answer)
    with CaptureQueriesContext(connection) as captured:
        content_of(client.get(picture_of(published)))
    assert len(captured) == 1
    hide_now(by=mona, about=f"photo/{published.pk}", reason="An address.")
    assert client.get(picture_of(published)).status_code == 404


def test_the_tag_of_a_picture_changes_when_something_is_covered(client, published, alice, unit):
    before = client.get(picture_of(published)).headers["ETag"]
    unit.status = Status.DRAFT
    unit.save()
    cover_photo(author=alice, photo=published, box=BOX, reason="address")
    client.force_login(alice)
    assert client.get(picture_of(published)).headers["ETag"] != before


def test_what_is_covered_is_gone_from_every_width(client, published, mona):
    cover_photo(author=mona, photo=published, box=(0.0, 0.0, 80.0, 60.0), reason="a face")
    for width in (320, 400):
        shown = Image.open(io.BytesIO(content_of(client.get(picture_of(published, width)))))
        red, green, blue = shown.convert("RGB").getpixel((40, 30))
        assert max(red, green, blue) - min(red, green, blue) < 20      # it was red there


@pytest.mark.parametrize("person", ["bob", None])
def test_a_draft_s_picture_is_nobody_else_s(client, photo, person, request):
    if person:
        client.force_login(request.getfixturevalue(person))
    assert client.get(picture_of(photo)).status_code == 404


@pytest.mark.parametrize("person", ["alice", "mona"])
def test_a_picture_of_what_is_not_public_is_kept_by_no_shared_cache(client, photo, person, request):
    type(photo.unit).objects.update(status="submitted")
    client.force_login(request.getfixturevalue(person))
    response = client.get(picture_of(photo))
    assert response.status_code == 200
    assert "private" in response.headers["Cache-Control"]
    assert "public" not in response.headers["Cache-Control"]


def test_there_is_no_picture_of_another_width_or_name(client, published):
    for address in (picture_of(published, 321), picture_of(published, 0),
                    f"/units/{published.unit_id}/photos/none/320.webp",
                    f"/units/999/photos/{published.key}/320.webp"):
        assert client.get(address).status_code == 404


def test_a_photo_that_was_taken_down_is_shown_to_nobody(client, photo, alice, mona, unit):
    take_down_photo(author=alice, photo=photo, reason="a face")
    publish(unit)
    for person in (alice, mona):
        client.force_login(person)
        assert client.get(picture_of(photo)).status_code == 404


def test_a_picture_whose_file_is_missing_is_not_found(client, published):
    storages["pictures"].delete(published.derivatives.get(width=320).path)
    assert client.get(picture_of(published)).status_code == 404


# Straight from above

@pytest.fixture
def flat(alice, photo, unit):
    """A scale of four corners: 200 by 100 pixels are 20 by 10 mm. Published."""
    scale_photo(author=alice, photo=photo, lengths=[0.020, 0.010], length_u=0.00002,
                points=((100.0, 100.0), (300.0, 100.0), (300.0, 200.0), (100.0, 200.0)))
    publish(unit)
    return f"/units/{unit.pk}/photos/{photo.key}/from-above.webp"


def test_a_picture_that_was_taken_square_looks_the_same_from_above(client, flat, bob):
    client.force_login(bob)
    response = client.get(flat)
    shown = Image.open(io.BytesIO(response.content)).convert("RGB")
    assert response.headers["Content-Type"] == "image/webp" and shown.size == (400, 300)
    red, white = shown.getpixel((40, 30)), shown.getpixel((200, 250))
    assert red[0] > 200 > 60 > red[1] and min(white) > 200


def test_without_four_corners_there_is_no_view_from_above(client, published, bob):
    client.force_login(bob)
    address = f"/units/{published.unit_id}/photos/{published.key}/from-above.webp"
    assert client.get(address).status_code == 404


def test_what_is_covered_is_covered_from_above_too(client, flat, photo, mona):
    cover_photo(author=mona, photo=photo, box=(0.0, 0.0, 80.0, 60.0), reason="a face")
    client.force_login(mona)
    shown = Image.open(io.BytesIO(client.get(flat).content)).convert("RGB")
    colour = shown.getpixel((40, 30))
    assert max(colour) - min(colour) < 20                                # it was red there


def test_a_view_from_above_is_for_those_who_see_the_unit_and_are_signed_in(client, flat, unit,
                                                                           bob):
    assert client.get(flat).url.startswith("/sign-in/")
    client.force_login(bob)
    unit.status = Status.DRAFT
    unit.save()
    assert client.get(flat).status_code == 404


# The file as it came in

def test_the_contributor_gets_the_original_back_byte_for_byte(client, photo, alice, tmp_path):
    client.force_login(alice)
    response = client.get(original_of(photo))
    assert content_of(response) == photograph(tmp_path, "again.png").read_bytes()
    assert CANARY.encode() in photograph(tmp_path, "again.png").read_bytes()


def test_an_original_is_saved_and_never_shown_or_cached(client, photo, alice):
    client.force_login(alice)
    headers = client.get(original_of(photo)).headers
    assert headers["Content-Type"] == "application/octet-stream"
    assert headers["Content-Disposition"] == f'attachment; filename="{photo.key}.png"'
    assert "private" in headers["Cache-Control"] and "no-store" in headers["Cache-Control"]
    assert headers["X-Content-Type-Options"] == "nosniff"


@pytest.mark.parametrize("person", ["bob", "rita", "mona"])
def test_the_original_of_a_published_photo_is_not_for_other_people(client, published, person,
                                                                   request):
    client.force_login(request.getfixturevalue(person))
    assert client.get(original_of(published)).status_code == 404


def test_anonymous_is_led_to_sign_in_for_an_original(client, published):
    assert client.get(original_of(published)).url.startswith("/sign-in/")


def test_once_something_is_covered_its_sender_has_the_original_no_more(client, photo, alice, unit):
    cover_photo(author=alice, photo=photo, box=BOX, reason="address")
    client.force_login(alice)
    assert client.get(original_of(photo)).status_code == 404
    publish(unit)
    assert client.get(original_of(photo)).status_code == 404


def test_an_original_whose_file_is_missing_is_not_found(client, photo, alice):
    storages["originals"].delete(original_name(photo.sha256))
    client.force_login(alice)
    assert client.get(original_of(photo)).status_code == 404


def test_it_rejects_post(client, published, alice):
    client.force_login(alice)
    for address in (picture_of(published), original_of(published)):
        assert client.post(address).status_code == 405
