"""A second reading, by a reviewer who is shown neither the first one nor where it was taken."""
import html

import pytest
from django.test import Client

from teardowns.models import InsulationObservation, PhotoClicks, PhotoReading
from teardowns.services.annotate_photo import put_mark
from teardowns.services.measure_photo import Drawn, measure_photo
from teardowns.services.scale_photo import scale_photo
from tests.published import published

pytestmark = pytest.mark.django_db
CORNERS = ((100.0, 100.0), (300.0, 100.0), (300.0, 200.0), (100.0, 200.0))
VALUES = {"state": "recorded", "how": "measured", "barrier": "PRI_SEC", "path": "clearance",
          "place": "under the optocoupler", "method": "photo_scale"}


@pytest.fixture
def first(alice, photo):
    """Alice's reading of 62 pixels at ten a millimetre, and a mark of something else."""
    scale = scale_photo(author=alice, photo=photo, points=CORNERS, lengths=[0.020, 0.010],
                        length_u=0.00002)
    reading, _ = measure_photo(
        author=alice, photo=photo, key="slot", label="under the optocoupler", version=0,
        drawn=Drawn("line", ((120.0, 150.0), (182.0, 150.0)), scale), model=InsulationObservation,
        values=VALUES)
    put_mark(author=alice, photo=photo, shape="point", points=((11.0, 12.0),), label="fuse",
             shows="")
    return reading


@pytest.fixture
def address(client, rita, photo, first):
    published(photo.unit)
    client.force_login(rita)
    return f"{photo.get_absolute_url()}read-again/{first.pk}/"


@pytest.fixture
def send(client, address, first):
    def posted(follow=True, **changed):
        fields = {"shape": "line", "points": "120,150 183,150", "scale": first.scale_id}
        response = client.post(address, fields | changed, follow=follow)
        return html.unescape(response.content.decode())
    return posted


def test_the_reviewer_sees_what_to_measure_but_not_how_it_was_read(client, address):
    page = client.get(address).content.decode()
    assert "Measure once more: under the optocoupler, clearance" in page
    assert "120,150" not in page and "182,150" not in page and "6.2" not in page
    assert " style=" not in page and "not a safety certificate" in page


def test_marks_of_other_things_stay_on_the_picture(client, address):
    page = client.get(address).content.decode()
    assert ">fuse</text>" in page and 'data-points="11,12"' in page
    assert page.count('data-key="') == 1


def test_no_length_is_shown_while_it_is_drawn(client, address):
    page = client.get(address).content.decode()
    assert "data-mm-per-px" not in page and "data-homography" not in page


def test_after_saving_both_readings_stand_beside_each_other(send, rita, first):
    page = send()
    again = PhotoReading.objects.get(blind=True)
    assert (again.author, again.shows) == (rita, first.shows)
    assert again.value == pytest.approx(0.0063, rel=1e-6)         # 63 px at 10 px/mm
    assert "Your reading stands beside the first one now." in page
    assert "by alice" in page and "by rita" in page and "agrees with the first" in page


def test_a_surface_that_is_followed_bridges_narrow_grooves_whatever_the_first_reading_did(send):
    # Down 2 mm into a groove 0.6 mm wide and up again, 6 mm from end to end: X is 1 mm.
    send(shape="path", surface="on",
         points="120,150 150,150 150,170 156,170 156,150 180,150")
    again = PhotoReading.objects.get(blind=True)
    assert (again.value, again.narrowest_groove) == (pytest.approx(0.006, rel=1e-6), 0.001)


def test_the_reviewer_is_told_of_a_slot_and_measures_round_it(client, address, send, first):
    assert "goes round a slot" not in client.get(address).content.decode()
    first.slot = {"corners": [[195, 100]], "way": [[0, 0], [1, 1]], "straight": 0.0062,
                  "width": 0.003, "width_u": 0.0001, "counts": True, "is_sure": True}
    first.narrowest_groove = 0.001
    first.save()
    page = client.get(address).content.decode()
    assert "The distance goes round a slot" in page and "195,100" not in page
    # √(2.5² + 3²) + 3 + √(2.3² + 3²) mm round the upper end of a slot 3 mm wide, see the bench.
    send(points="170,130 248,130", slot="195,100 225,100 225,200 195,200")
    assert PhotoReading.objects.get(blind=True).value == pytest.approx(0.010685, abs=1e-6)


def test_a_slot_that_is_wrong_is_told_to_the_reviewer_too(send):
    page = send(points="170,130 248,130", slot="195,100 225,200 225,100 195,200")
    assert "The sides of the slot cross each other." in page
    assert PhotoReading.objects.count() == 1


def test_a_reviewer_s_own_clicks_count_and_the_contributor_s_do_not(send, alice, rita, photo):
    PhotoClicks.objects.create(photo=photo, author=alice, uncertainty=0.4, points=[[1, 1]] * 3)
    send()
    assert PhotoReading.objects.get(blind=True).click_uncertainty == 3.0
    PhotoClicks.objects.create(photo=photo, author=rita, uncertainty=0.5, points=[[1, 1]] * 3)
    send()
    assert PhotoReading.objects.filter(blind=True).last().click_uncertainty == 0.5


def test_the_evidence_stays_what_the_contributor_recorded(send):
    send(points="120,150 280,150")
    row = InsulationObservation.objects.get()
    assert row.value == pytest.approx(0.0062, rel=1e-6) and row.version == 1


@pytest.mark.parametrize("typed, remedy", [
    ({"points": ""}, "Draw on the picture first"),
    ({"points": "120,150"}, "A line needs two points; 1 given."),
    ({"points": "120,150 500,150"}, "outside the picture, which is 400 pixels wide"),
    ({"points": "120,150 183,150", "scale": "0"}, "then choose it here"),
    ({"points": "120,150 183,150", "scale": ""}, "Set a scale on this photo first"),
])
def test_a_wrong_drawing_keeps_what_was_typed_and_says_what_helps(send, typed, remedy):
    page = send(**typed)
    assert remedy in page and "what you typed is kept" in page
    assert f'value="{typed["points"]}"' in page or not typed["points"]
    assert PhotoReading.objects.count() == 1


def test_a_reading_of_its_own_is_not_measured_once_more(client, send, photo):
    send()
    again = PhotoReading.objects.get(blind=True)
    address = f"{photo.get_absolute_url()}read-again/{again.pk}/"
    assert client.get(address).status_code == 404


def test_plain_readers_and_the_contributor_are_refused(client, address, bob, alice):
    for person in (bob, alice):
        client.force_login(person)
        assert client.get(address).status_code == 403
        assert client.post(address).status_code == 403
    client.logout()
    assert client.get(address).url.startswith("/sign-in/")


def test_a_reviewer_does_not_measure_an_own_unit_once_more(client, address, alice):
    alice.role = "reviewer"
    alice.save()
    client.force_login(alice)
    assert client.get(address).status_code == 404
    assert client.post(address).status_code == 404


def test_an_unknown_reading_is_not_found(client, address, photo, first):
    assert client.get(f"{photo.get_absolute_url()}read-again/{first.pk + 9}/").status_code == 404


def test_a_form_without_its_token_is_refused(address, rita):
    client = Client(enforce_csrf_checks=True)
    client.force_login(rita)
    assert client.post(address, {"points": "1,2 3,4"}).status_code == 403


def test_it_costs_at_most_twelve_queries(client, address, django_assert_max_num_queries):
    with django_assert_max_num_queries(12):
        assert client.get(address).status_code == 200


def test_it_rejects_put(client, address):
    assert client.put(address).status_code == 405
