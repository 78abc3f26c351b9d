"""Measuring on the bench: scales, lengths, temperatures; what is wrong is said in words."""
import pytest

from teardowns.models import (
    Annotation,
    InsulationObservation,
    Measurement,
    Photo,
    PhotoReading,
    PhotoScale,
)
from teardowns.services.scale_photo import scale_photo
from tests.views.photo_page import address_of, is_kept, sender

pytestmark = pytest.mark.django_db
# 200 by 100 pixels are 20 by 10 mm: ten pixels a millimetre, seen square.
CORNERS = "100,100 300,100 300,200 100,200"
SLOT = "120,150 182,150"           # 62 pixels


@pytest.fixture
def address(client, alice, photo):
    client.force_login(alice)
    return address_of(photo)


@pytest.fixture
def act(client, address, photo):
    return sender(client, photo)


@pytest.fixture
def scale(alice, photo):
    return scale_photo(author=alice, photo=photo, lengths=[0.020, 0.010], length_u=0.00002,
                       points=((100.0, 100.0), (300.0, 100.0), (300.0, 200.0), (100.0, 200.0)))


# Scales

def test_two_points_on_a_known_thing_are_a_scale(act):
    page = act("scale-line", points="100,100 300,100", known="ruler_10", plane="on the board")
    row = PhotoScale.objects.get()
    assert (row.lengths, row.known, row.plane) == ([0.01], "ruler_10", "on the board")
    # Limits of ± 0.1 mm, rectangular: 0.1 mm / √3 = 0.0577 mm (GUM, 4.3.7).
    assert row.length_uncertainty == pytest.approx(5.7735e-5, rel=1e-4)
    assert "The scale is set: 10" in page and 'data-mm-per-px="0.05"' in page


def test_a_typed_length_is_in_millimetres_and_its_u_is_of_95_percent(act):
    act("scale-line", points="100,100 300,100", known="typed", length="25,4 mm", length_u="0.1")
    row = PhotoScale.objects.get()
    assert row.lengths == pytest.approx([0.0254]) and row.known == ""
    assert row.length_uncertainty == pytest.approx(0.00005)       # half of it: k = 1


@pytest.mark.parametrize("typed, remedy", [
    ({"length": ""}, "Choose what the drawing lies on, or write its length in millimetres."),
    ({"length": "wide"}, "Write a number of millimetres, such as 25.4."),
    ({"length": "-3"}, "A length is not negative."),
    ({"length": "85600"}, "More than 2 metres: is that in millimetres?"),
    ({"length": "10", "length_u": "9"}, "more than a quarter of the length itself"),
    ({"length": "10", "points": "100,100 103,100"}, "at both ends of the known length"),
    ({"length": "10", "points": "100,100"}, "A line needs two points; 1 given."),
])
def test_a_line_that_is_no_scale_keeps_what_was_typed_and_says_what_helps(act, typed, remedy):
    typed = {"points": "100,100 300,100", "known": "typed", "plane": "on the board"} | typed
    page = act("scale-line", **typed)
    assert remedy in page
    assert is_kept(page, typed["points"], *filter(None, (typed["length"], typed["plane"])))
    assert not PhotoScale.objects.exists()


def test_four_corners_of_a_card_are_a_scale_without_perspective(act):
    # ID-1 is 85.60 mm by 53.98 mm (ISO/IEC 7810:2019).
    page = act("scale-corners", points="20,20 362,20 362,236 20,236", known="card")
    assert PhotoScale.objects.get().lengths == pytest.approx([0.0856, 0.05398])
    assert "data-homography=" in page and "four corners, perspective removed" in page


@pytest.mark.parametrize("typed, remedy", [
    ({"width": "20", "height": ""}, "Choose what the drawing lies on"),
    ({"points": "100,100 300,100 300,200"}, "A rectangle has four corners"),
    ({"points": "100,100 300,200 300,100 100,200"}, "The corners of the scale are crossed."),
    ({"width": "200"}, "far longer or shorter than its width and height say"),
])
def test_a_rectangle_that_is_no_scale_keeps_what_was_typed_and_says_what_helps(act, typed, remedy):
    typed = {"points": CORNERS, "known": "typed", "width": "20", "height": "10"} | typed
    page = act("scale-corners", **typed)
    assert remedy in page and is_kept(page, typed["points"], typed["width"])
    assert not PhotoScale.objects.exists()


# Lengths

def test_a_new_distance_becomes_evidence_with_its_photo(act, scale, photo):
    page = act("measure", shape="line", points=SLOT, scale=scale.pk, what="new:PRI_SEC:clearance",
               place="under the optocoupler")
    row = InsulationObservation.objects.get()
    assert row.value == pytest.approx(0.0062, rel=1e-6)           # 62 px at 10 px/mm
    assert (row.barrier, row.path, row.method, row.photo) == ("PRI_SEC", "clearance",
                                                              "photo_scale", photo)
    assert "under the optocoupler: 6.2" in page
    assert "(95 %). It is part of the evidence now." in page


def test_two_new_distances_are_two_rows(act, scale):
    for place in ("under the optocoupler", "beside the transformer"):
        act("measure", shape="line", points=SLOT, scale=scale.pk, what="new:PRI_SEC:clearance",
            place=place)
    assert list(InsulationObservation.objects.values_list("key", flat=True)) == ["photo-1",
                                                                                 "photo-2"]


def test_a_distance_recorded_already_gets_the_new_value_and_keeps_its_place(act, scale, photo,
                                                                           alice):
    row = InsulationObservation.objects.create(
        unit=photo.unit, key="slot", path="clearance", place="slot", state="not_looked",
        barrier="PRI_ENC", author=alice)
    act("measure", shape="line", points=SLOT, scale=scale.pk, what="row:slot")
    row.refresh_from_db()
    assert (row.state, row.place, row.barrier, row.version) == ("recorded", "slot", "PRI_ENC", 2)
    assert row.value == pytest.approx(0.0062, rel=1e-6)


def test_a_size_of_the_unit_is_a_measurement(act, scale):
    page = act("measure", shape="line", points=SLOT, scale=scale.pk, what="size:case_width")
    row = Measurement.objects.get()
    assert (row.quantity, row.key) == ("case_width", "case-width")
    assert row.value == pytest.approx(0.0062, rel=1e-6)
    assert "It is part of the evidence now." in page


def test_a_size_measured_twice_is_one_row(act, scale):
    for points in (SLOT, "120,150 190,150"):
        act("measure", shape="line", points=points, scale=scale.pk, what="size:case_width")
    assert Measurement.objects.get().value == pytest.approx(0.0070, rel=1e-6)
    assert PhotoReading.objects.count() == 2


def test_a_path_is_as_long_as_its_legs(act, scale):
    # 40 px to the right and 30 px down: 7 mm, not the 5 mm of the straight line.
    act("measure", shape="path", points="120,120 160,120 160,150", scale=scale.pk,
        what="new:PRI_SEC:clearance", place="round the slot")
    assert InsulationObservation.objects.get().value == pytest.approx(0.0070, rel=1e-6)


def test_a_creepage_bridges_grooves_narrower_than_a_millimetre(act, scale):
    # Across 3 mm, down and up a groove of 0.5 mm by 2 mm, 3 mm more: 6.5 mm, not 10.5 mm
    # (IEC 60664-1:2020, 6.8: X = 1 mm at pollution degree 2).
    act("measure", shape="path", points="120,120 150,120 150,140 155,140 155,120 185,120",
        scale=scale.pk, what="new:PRI_SEC:creepage", place="over the groove", surface="on")
    assert InsulationObservation.objects.get().value == pytest.approx(0.0065, rel=1e-6)


def test_the_pollution_degree_chooses_which_grooves_are_bridged(act, scale):
    # A groove 1.2 mm wide and 2 mm deep: it counts at X = 1 mm, 3 + 2 + 1.2 + 2 + 3 mm, and is
    # bridged at X = 1.5 mm (IEC 60664-1:2020, 6.8), 7.2 mm.
    points = "120,120 150,120 150,140 162,140 162,120 192,120"
    for degree, length in (("2", 0.0112), ("3", 0.0072)):
        act("measure", shape="path", points=points, scale=scale.pk, surface="on",
            what="new:PRI_SEC:creepage", place="over the groove", pollution_degree=degree)
        row = PhotoReading.objects.last()
        assert row.value == pytest.approx(length) and row.pollution_degree == int(degree)


# Copper 2.5 mm left and 2.3 mm right of a slot 3 mm wide, 3 mm below its upper end:
# √(2.5² + 3²) + 3 + √(2.3² + 3²) = 10.685 mm; straight across 7.8 mm.
ROUND = {"shape": "line", "points": "170,130 248,130", "place": "round the slot",
         "what": "new:PRI_SEC:creepage", "slot": "195,100 225,100 225,200 195,200"}


def test_a_creepage_goes_round_a_slot_and_the_page_says_which_way(act, scale):
    page = act("measure", scale=scale.pk, **ROUND)
    row = InsulationObservation.objects.get()
    assert row.value == pytest.approx(0.010685, abs=1e-6) and row.shape == "slot"
    assert "It goes round the slot by corners 1 and 2; straight across would be 7.80" in page
    assert "assumed: nobody clicked one point again and again." in page
    assert 'data-shape="path" data-points="170,130 195,100 225,100 248,130"' in page


def test_an_end_of_the_slot_on_the_edge_of_the_board_is_no_way(act, scale):
    # Round the lower end, 7 mm down: √(2.5² + 7²) + 3 + √(2.3² + 7²) = 17.801 mm.
    act("measure", scale=scale.pk, **ROUND, open_corners="1 2")
    assert InsulationObservation.objects.get().value == pytest.approx(0.017801, abs=1e-6)


@pytest.mark.parametrize("typed, remedy", [
    ({"what": "new:PRI_SEC:clearance"}, "air goes straight across"),
    ({"points": "200,130 248,130"}, "A conductor is marked inside the slot"),
    ({"open_corners": "1 2 3 4"}, "No way leads round this slot"),
    ({"slot": "195,100 225,200 225,100 195,200"}, "The sides of the slot cross each other."),
])
def test_a_slot_that_is_wrong_keeps_what_was_typed_and_says_what_helps(act, scale, typed, remedy):
    typed = ROUND | typed
    page = act("measure", scale=scale.pk, **typed)
    assert remedy in page and is_kept(page, typed["points"], typed["slot"])
    assert not InsulationObservation.objects.exists() and not Annotation.objects.exists()


def test_the_form_says_that_two_heights_cannot_be_measured(client, address):
    assert "A length between two heights" in client.get(address).content.decode()


# Repeated clicks

def test_repeated_clicks_count_for_what_is_measured_from_then_on(act, scale):
    fields = {"shape": "line", "points": SLOT, "scale": scale.pk, "what": "size:case_width"}
    act("measure", **fields)
    page = act("clicks", points="10,5 12,5 14,8")
    # U = 2 √7 px, see the service's test.
    assert "may be off by ± 5.3" in page and "from 3 clicks" in page
    page = act("measure", **fields)
    before, after = PhotoReading.objects.all()
    assert before.click_uncertainty == 3.0 and after.click_uncertainty == pytest.approx(7 ** 0.5)
    assert "(95 %), from 3 clicks on one point." in page


@pytest.mark.parametrize("points, remedy", [
    ("10,5 12,5", "at least 3 times"), ("10,5 10,5 10,5", "exactly the same spot"),
    ("10,5 12,5 300,200", "Click the same point each time")])
def test_clicks_that_say_nothing_are_kept_and_told_what_helps(act, points, remedy):
    page = act("clicks", points=points)
    assert remedy in page and is_kept(page, points)


def test_what_lies_off_the_plane_is_less_certain(act, scale):
    fields = {"shape": "line", "points": SLOT, "scale": scale.pk, "what": "new:PRI_SEC:clearance"}
    act("measure", place="in the plane", **fields)
    act("measure", place="above it", off_plane="on", **fields)
    flat, above = PhotoReading.objects.all()
    assert above.uncertainty > flat.uncertainty and above.value == flat.value


@pytest.mark.parametrize("typed, remedy", [
    ({"place": ""}, "Say where the distance lies, so that a reviewer finds it."),
    ({"scale": "0"}, "Set a scale on this photo first, then choose it here."),
    ({"points": "120,150"}, "A line needs two points; 1 given."),
    ({"points": "120,150 120,150"}, "Points 1 and 2 are the same"),
    ({"surface": "on"}, "Only a creepage distance follows the surface"),
    ({"what": "row:none"}, "Select a valid choice"),
])
def test_a_length_that_is_wrong_keeps_what_was_typed_and_says_what_helps(act, scale, typed,
                                                                         remedy):
    typed = {"shape": "line", "points": SLOT, "scale": str(scale.pk), "place": "slot",
             "what": "new:PRI_SEC:clearance"} | typed
    page = act("measure", **typed)
    assert remedy in page and is_kept(page, *filter(None, (typed["points"], typed["place"])))
    assert not InsulationObservation.objects.exists() and not PhotoReading.objects.exists()


def test_without_a_scale_nothing_can_be_measured_and_the_page_says_so(act):
    page = act("measure", shape="line", points=SLOT, what="new:PRI_SEC:clearance", place="slot")
    assert "Set a scale on this photo first." in page and is_kept(page, SLOT, "slot")


# Temperatures

@pytest.fixture
def thermal(photo):
    photo.stage = "thermal"
    photo.save()
    return photo


SPOT = {"shape": "point", "points": "100,80", "what": "case_temperature", "reading": "70",
        "reading_u": "2", "set_emissivity": "1", "emissivity": "0.95", "emissivity_u": "0.02",
        "background": "25"}


def test_only_a_thermal_picture_asks_for_temperatures(client, address, photo):
    act = '<input type="hidden" name="act" value="temperature">'
    assert act not in client.get(address).content.decode()
    Photo.objects.update(stage="thermal")
    assert act in client.get(address).content.decode()


def test_a_temperature_becomes_evidence_set_right_for_its_surface(act, thermal):
    page = act("temperature", **SPOT)
    row = Measurement.objects.get()
    # Stefan-Boltzmann with a mirrored background: 343.15⁴ = 0.95 T⁴ + 0.05 · 298.15⁴.
    kelvin = ((343.15 ** 4 - 0.05 * 298.15 ** 4) / 0.95) ** 0.25
    assert row.value == pytest.approx(kelvin - 273.15, abs=1e-6)
    assert "(95 %), set right for the surface. It is part of the evidence now." in page
    assert Annotation.objects.get().shows == row.ref


def test_the_legend_is_kept_and_shown(client, act, thermal):
    page = act("temperature", **SPOT, legend_low="24.5", legend_high="88")
    assert "The legend in the picture goes from 24.5 to 88" in page


def test_a_reading_that_does_not_fit_is_told_at_the_reading(act, thermal):
    page = act("temperature", **SPOT, legend_low="24", legend_high="60")
    field = page.partition('name="reading"')[2].partition('name="reading_u"')[0]
    assert "70 °C lies outside the legend, which goes from 24 to 60 °C" in field


@pytest.mark.parametrize("changed, remedy", [
    ({"legend_low": "24", "legend_high": "60"}, "70 °C lies outside the legend"),
    ({"legend_low": "24"}, "Write both ends of the legend"),
    ({"reading": ""}, "This field is required."), ({"reading": "hot"}, "such as 71.5"),
    ({"emissivity": "95"}, "An emissivity lies between 0.05 and 1."),
    ({"points": "100,80 120,90"}, "A point needs one point; 2 given."),
    ({"reading": "-40", "emissivity": "0.05", "background": "400"},
     "Check the reading, the emissivities and the background."),
])
def test_a_temperature_that_is_wrong_keeps_what_was_typed_and_says_what_helps(act, thermal,
                                                                              changed, remedy):
    typed = SPOT | changed
    page = act("temperature", **typed)
    assert remedy in page
    assert is_kept(page, typed["points"], typed["emissivity"], typed["background"])
    assert not Measurement.objects.exists() and not Annotation.objects.exists()


def test_a_temperature_of_a_picture_that_is_no_longer_thermal_is_kept_too(act):
    assert is_kept(act("temperature", **SPOT | {"reading": "hot"}), "hot")
