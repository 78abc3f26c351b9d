"""The page of one photo: what is marked on it, what was read off it, and how surely."""
import html

import pytest

from teardowns.models import (
    InsulationObservation,
    Photo,
    PhotoReading,
    PhotoTemperature,
    Status,
)
from teardowns.services.annotate_photo import put_mark
from teardowns.services.measure_photo import Drawn, measure_again, measure_photo
from teardowns.services.scale_photo import scale_photo
from tests.published import published as publish

pytestmark = pytest.mark.django_db
CORNERS = ((100.0, 100.0), (300.0, 100.0), (300.0, 200.0), (100.0, 200.0))
VALUES = {"state": "recorded", "how": "measured", "barrier": "PRI_SEC", "path": "clearance",
          "place": "slot", "method": "photo_scale"}


@pytest.fixture
def scale(alice, photo):
    """200 by 100 pixels are 20 by 10 mm: ten pixels a millimetre, seen square."""
    return scale_photo(author=alice, photo=photo, points=CORNERS, lengths=[0.020, 0.010],
                       length_u=0.00002, plane="on the board")


@pytest.fixture
def reading(alice, photo, scale):
    found, _ = measure_photo(
        author=alice, photo=photo, drawn=drawn(scale, 182.0), key="slot", label="slot", version=0,
        model=InsulationObservation, values=VALUES)
    return found


@pytest.fixture
def published(photo):
    publish(photo.unit)


def drawn(scale, x):
    return Drawn("line", ((120.0, 150.0), (x, 150.0)), scale)


def page_of(client, photo):
    response = client.get(photo.get_absolute_url())
    assert response.status_code == 200
    return html.unescape(response.content.decode()).replace("\u202f", " ").replace("\xa0", " ")


def test_anybody_sees_the_picture_of_a_published_unit(client, photo, published):
    page = page_of(client, photo)
    assert f'src="/units/{photo.unit_id}/photos/{photo.key}/400.webp"' in page
    assert 'width="400" height="300"' in page and "not a safety certificate" in page
    assert " style=" not in page and " onclick=" not in page


def test_nothing_was_marked_or_measured_is_said_in_words(client, photo, published):
    page = page_of(client, photo)
    assert "Nothing is marked on this picture yet." in page
    assert "No scale is set on this picture, so no length was read off it." in page


def test_it_lists_the_marks_with_what_they_show(client, photo, reading, published):
    page = page_of(client, photo)
    assert 'viewBox="0 0 400 300"' in page and 'data-points="120,150 182,150"' in page
    assert '<a href="#mark-m1" data-key="m1">slot</a>' in page
    assert f'shows <a href="/units/{photo.unit_id}/#insulationobservation-slot">slot, ' \
           "clearance</a>" in page


def test_a_mark_of_an_entry_that_was_removed_has_no_link(client, photo, alice, published):
    photo.unit.status = Status.DRAFT
    photo.unit.save()
    put_mark(author=alice, photo=photo, shape="point", points=((5.0, 5.0),), label="C1",
             shows="component/none")
    client.force_login(alice)
    assert "shows" not in page_of(client, photo).partition("marks-list")[2].partition("</ol>")[0]


def test_it_gives_the_scale_with_its_uncertainty(client, photo, scale, published):
    # u = 0.02 mm, k = 1; the page shows the 95 % interval, twice that.
    assert "Scale: 20.00 mm × 10.00 mm ± 0.040 mm, four corners, perspective removed, on the " \
           "board" in page_of(client, photo)


def test_a_reading_stands_with_its_interval_and_its_budget(client, photo, reading, published):
    page = page_of(client, photo)
    assert '<b class="num">6.2' in page and "by alice" in page
    for part in ("Length of the scale", "Clicks on what is measured", "Lens"):
        assert f"<li>{part} <span" in page


def test_a_temperature_stands_with_what_was_shown_and_the_legend(client, photo, alice, published):
    PhotoTemperature.objects.create(
        photo=photo, shows="measurement/case", shape="point", points=[[100, 80]], reading=70.0,
        set_emissivity=1.0, emissivity=0.95, background=25.0, legend_low=24.5, legend_high=88.0,
        value=71.93, uncertainty=1.5, author=alice)
    publish(photo.unit)
    page = page_of(client, photo)
    assert "the spot showed 70 °C at an emissivity of 1" in page
    assert "The legend in the picture goes from 24.5 to 88 °C." in page
    PhotoTemperature.objects.update(legend_low=None, legend_high=None)
    publish(photo.unit)
    assert "The ends of the legend in the picture were not recorded." in page_of(client, photo)


def test_a_second_reading_that_agrees_says_so(client, photo, reading, scale, rita, published):
    measure_again(reviewer=rita, photo=photo, drawn=drawn(scale, 183.0), shows=reading.shows)
    page = page_of(client, photo)
    assert "by rita" in page and "without having seen the first reading" in page
    assert "0.10 mm apart; agrees with the first" in page


def test_a_second_reading_that_does_not_agree_says_so(client, photo, reading, scale, rita,
                                                      published):
    measure_again(reviewer=rita, photo=photo, drawn=drawn(scale, 282.0), shows=reading.shows)
    assert "10 mm apart; does not agree with the first" in page_of(client, photo)


def test_a_reviewer_is_offered_to_measure_once_more_and_others_are_not(client, photo, reading,
                                                                       rita, bob, published):
    again = f"{photo.get_absolute_url()}read-again/{reading.pk}/"
    client.force_login(bob)
    assert again not in page_of(client, photo)
    client.force_login(rita)
    assert again in page_of(client, photo)


def test_the_contributor_is_led_to_the_bench_while_it_is_open(client, photo, alice, published):
    client.force_login(alice)
    bench = f"/bench/{photo.unit_id}/photos/{photo.key}/"
    assert bench not in page_of(client, photo)
    photo.unit.status = Status.DRAFT
    photo.unit.save()
    assert bench in page_of(client, photo)


def test_it_leads_to_the_pictures_before_and_after(client, photo, alice, published):
    for key, stage in (("late", "waveforms"), ("early", "as_received"), ("down", "opened")):
        row = Photo.objects.create(unit=photo.unit, key=key, stage=stage, sha256=key,
                                   author=alice, width=400, height=300)
        row.derivatives.create(width=400, height=300, media_type="image/webp", path=key)
    publish(photo.unit)
    Photo.objects.filter(key="down").update(taken_down_at=photo.created_at)
    page = page_of(client, photo)
    assert "picture 2 of 3" in page
    assert f'rel="prev" href="/units/{photo.unit_id}/photos/early/"' in page
    assert f'rel="next" href="/units/{photo.unit_id}/photos/late/"' in page


def test_a_drawing_is_said_to_be_one(client, photo, published):
    Photo.objects.update(drawn=True)
    publish(photo.unit)
    assert "Drawing, not a photograph." in page_of(client, photo)


def test_it_names_the_original_and_what_was_taken_out(client, photo, published):
    page = page_of(client, photo)
    assert photo.stripped and f"shown: {', '.join(photo.stripped)}." in page
    assert f"SHA-256, {photo.sha256[:12]}…" in page and photo.original_name not in page


def test_captions_and_labels_are_shown_as_text(client, photo, alice):
    Photo.objects.update(caption="<script>x</script>", alt='"><script>y')
    put_mark(author=alice, photo=photo, shape="point", points=((5.0, 5.0),),
             label="</svg><script>z", shows="")
    client.force_login(alice)
    page = client.get(photo.get_absolute_url()).content.decode()
    assert not any(f"<script>{letter}" in page for letter in "xyz")


def test_a_draft_is_nobody_else_s_business(client, photo, bob):
    assert client.get(photo.get_absolute_url()).status_code == 404
    client.force_login(bob)
    assert client.get(photo.get_absolute_url()).status_code == 404


def test_a_photo_known_by_its_digest_alone_has_no_page(client, photo, published):
    photo.derivatives.all().delete()
    assert client.get(photo.get_absolute_url()).status_code == 404


def test_an_unknown_or_taken_down_photo_is_not_found(client, photo, published):
    assert client.get(f"/units/{photo.unit_id}/photos/none/").status_code == 404
    Photo.objects.update(taken_down_at=photo.created_at)
    assert client.get(photo.get_absolute_url()).status_code == 404


def test_it_costs_at_most_twelve_queries(client, photo, scale, alice, published,
                                         django_assert_max_num_queries):
    photo.unit.status = Status.DRAFT
    photo.unit.save()
    for n in range(20):
        put_mark(author=alice, photo=photo, shape="point", points=((1.0 + n, 5.0),), label=f"m{n}",
                 shows=f"component/c{n}")
        PhotoReading.objects.create(photo=photo, scale=scale, shows=f"component/c{n}", value=0.005,
                                    shape="line", points=[], uncertainty=1e-4, budget=[],
                                    author=alice)
    client.force_login(alice)
    with django_assert_max_num_queries(12):
        assert client.get(photo.get_absolute_url()).status_code == 200


def test_it_rejects_post(client, photo, published):
    assert client.post(photo.get_absolute_url()).status_code == 405


def test_a_row_of_evidence_leads_to_the_mark_that_shows_it(client, photo, alice):
    client.force_login(alice)
    for label, shows in (("C1", "component/bulk"), ("R1", "component/sense")):
        put_mark(author=alice, photo=photo, shape="box", points=CORNERS[:3:2], label=label,
                 shows=shows)
    page = client.get(f"{photo.get_absolute_url()}?shows=component/sense").content.decode()
    label = page.partition('<text')[2].partition("R1")[0].rpartition("<text")[2]
    assert page.count('<g class="chosen"') == 1 and 'class="chosen"' in label
