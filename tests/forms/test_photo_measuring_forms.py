"""What is typed to measure on a photo, without the page around it."""
import pytest

from teardowns.engine.quantities import QUANTITIES
from teardowns.forms.photo_measuring_forms import (
    ClicksForm,
    MeasureForm,
    ReadForm,
    scale_name,
    sizes,
)
from teardowns.imaging.slot_reading import Slot
from teardowns.models import InsulationObservation, Photo, PhotoScale

PHOTO = Photo(width=400, height=300)
LINE = {"shape": "line", "points": "10,20 60.5,20"}
OUTLINE = "30,5 36,5 36,60 30,60"


def scale(**said):
    return PhotoScale(pk=7, points=[[0, 0], [100, 0]], lengths=[0.01], **said)


def measured(what="new:PRI_SEC:clearance", place="slot", rows=(), **typed):
    form = MeasureForm(LINE | {"scale": "7", "what": what, "place": place} | typed, photo=PHOTO,
                       scales=[scale()], rows=rows)
    form.is_valid()
    return form


def test_a_reading_needs_a_scale_of_this_photo():
    form = ReadForm(LINE | {"scale": "8"}, photo=PHOTO, scales=[scale()])
    assert "Set a scale on this photo first" in form.errors["scale"][0]
    assert ReadForm(LINE | {"scale": "7"}, photo=PHOTO, scales=[scale()]).is_valid()


def test_a_surface_is_followed_with_at_most_sixty_points():
    points = " ".join(f"{x},{x % 2}" for x in range(61))
    form = measured("new:PRI_SEC:creepage", shape="path", points=points, surface="on")
    assert "at most 60 points" in form.errors["points"][0]
    assert measured("new:PRI_SEC:creepage", shape="path", points=points).is_valid()


def test_a_new_distance_needs_its_place_and_a_recorded_one_has_it():
    row = InsulationObservation(key="slot", path="clearance", place="slot")
    assert "Say where the distance lies" in measured(place="").errors["place"][0]
    assert measured("row:slot", place="", rows=[row]).is_valid()


@pytest.mark.parametrize("what, is_surface", [
    ("new:PRI_SEC:creepage", True), ("new:PRI_SEC:clearance", False), ("row:over", True),
    ("row:slot", False), ("size:case_width", False)])
def test_only_a_creepage_follows_the_surface(what, is_surface):
    rows = [InsulationObservation(key="over", path="creepage", place="over the slot"),
            InsulationObservation(key="slot", path="clearance", place="slot")]
    form = measured(what, surface="on", rows=rows)
    assert form.is_valid() is is_surface
    if not is_surface:
        assert "Only a creepage distance follows the surface" in form.errors["surface"][0]


def test_sizes_are_lengths_of_the_unit_and_no_paths_across_a_barrier():
    codes = {each.code for each in sizes()}
    assert "case_width" in codes
    assert codes.isdisjoint({"clearance", "creepage", "insulation_thickness", "rated_altitude"})
    assert all(QUANTITIES[code].unit == "m" for code in codes)


@pytest.mark.parametrize("said, name", [
    ({}, "10.00 mm"), ({"plane": "on the board"}, "10.00 mm, on the board"),
    ({"known": "ruler_10"}, "Ruler, 10 mm, 10.00 mm"), ({"known": "gone"}, "10.00 mm")])
def test_a_scale_is_called_by_what_it_is_and_where_it_lies(said, name):
    assert scale_name(scale(**said)).replace("\u202f", " ").replace("\xa0", " ") == name


# Slots and grooves

def round_slot(what="new:PRI_SEC:creepage", **typed):
    return measured(what, **{"slot": OUTLINE} | typed)


def test_a_slot_has_corners_in_the_picture_and_numbers_of_those_on_the_edge():
    form = round_slot(open_corners="1, 2")
    drawn = form.drawn([scale()], None)
    assert drawn.slot == Slot(((30.0, 5.0), (36.0, 5.0), (36.0, 60.0), (30.0, 60.0)), (0, 1))
    # IEC 60664-1:2020, 6.8: X = 1 mm at pollution degree 2.
    assert drawn.grooves.narrowest == pytest.approx(0.001)


@pytest.mark.parametrize("degree, clearance, x", [
    ("1", "", 0.25), ("2", "", 1.0), ("3", "", 1.5), ("", "", 1.0),
    # Below 3 mm a third of the clearance, where that is less: 1.5 / 3 = 0.5 mm.
    ("2", "1.5", 0.5), ("3", "3", 1.5), ("1", "1.5", 0.25), ("2", "8", 1.0)])
def test_x_follows_the_pollution_degree_and_the_clearance(degree, clearance, x):
    for slot, surface in ((OUTLINE, ""), ("", "on")):
        form = round_slot(slot=slot, surface=surface, pollution_degree=degree, clearance=clearance)
        assert form.drawn([scale()], None).grooves.narrowest == pytest.approx(x / 1e3)


def test_each_degree_names_its_x():
    labels = dict(ReadForm(photo=PHOTO).fields["pollution_degree"].choices)
    assert [label.partition("; ")[2] for label in labels.values()] == [
        "X = 0.25 mm", "X = 1 mm", "X = 1.5 mm"]


def test_without_slot_and_surface_no_groove_counts():
    drawn = measured().drawn([scale()], None)
    assert drawn.grooves is None and drawn.slot is None


@pytest.mark.parametrize("typed, field, remedy", [
    ({"what": "new:PRI_SEC:clearance"}, "slot", "air goes straight across"),
    ({"shape": "path"}, "shape", "draw a line from copper to copper"),
    ({"surface": "on"}, "surface", "follows the surface or goes round a slot"),
    ({"slot": "30,5 36,5"}, "slot", "A polygon needs at least three points"),
    ({"slot": "30,5 36,5 500,60"}, "slot", "outside the picture"),
    ({"slot": " ".join(f"{x},{5 + x % 2}" for x in range(41))}, "slot", "at most 40 corners"),
    ({"slot": "", "open_corners": "1"}, "slot", "Mark the corners of the slot too"),
    ({"open_corners": "5"}, "open_corners", "The slot has the corners 1 to 4."),
    ({"open_corners": "0"}, "open_corners", "The slot has the corners 1 to 4."),
    ({"open_corners": "left"}, "open_corners", "numbers of corners, such as 1 2"),
    ({"clearance": "0"}, "clearance", "leave it empty"),
    ({"pollution_degree": "4"}, "pollution_degree", "Select a valid choice"),
])
def test_a_slot_that_does_not_fit_is_told_what_helps(typed, field, remedy):
    assert remedy in round_slot(**typed).errors[field][0]


def test_what_was_typed_where_it_is_folded_away_is_shown():
    assert round_slot().is_unfolded and measured(clearance="0").is_unfolded
    assert not measured().is_unfolded and not measured(pollution_degree="2").is_unfolded


def test_what_cannot_be_read_is_said_with_its_remedy():
    """Two points at different heights have no scale between them."""
    assert "between two heights" in MeasureForm.NOTE and "caliper" in MeasureForm.NOTE


# Repeated clicks

def clicked(points):
    form = ClicksForm({"points": points}, photo=PHOTO)
    form.is_valid()
    return form


def test_one_point_may_be_clicked_on_the_same_pixel_twice():
    assert clicked("10,20 10,20 11,20").cleaned_data["points"] == ((10, 20), (10, 20), (11, 20))


@pytest.mark.parametrize("points, remedy", [
    ("10,20 11,20", "at least 3 times and at most 30; 2 given"),
    (" ".join(["10,20"] * 31), "31 given"), ("10,20 11,20 10,400", "outside the picture"),
    ("10,20 11,20 here", "is no point"), ("", "Draw on the picture first"),
])
def test_clicks_that_say_nothing_are_told_what_helps(points, remedy):
    assert remedy in clicked(points).errors["points"][0]
