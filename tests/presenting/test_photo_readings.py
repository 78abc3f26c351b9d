"""What is said of lengths and temperatures that were read off a photo."""
import numpy as np
import pytest

from teardowns.models import Photo, PhotoClicks, PhotoReading, PhotoScale, PhotoTemperature
from teardowns.presenting.links import Links
from teardowns.presenting.photo_readings import (
    SHARED,
    compared,
    print_pixels,
    slot_told,
    temperatures_told,
)

pytestmark = pytest.mark.django_db
NAMES = {"component/c1": "bulk capacitor C1"}
CORNERS = [[100, 100], [300, 100], [300, 200], [100, 200]]


@pytest.fixture
def plate(alice, unit):
    return Photo.objects.create(unit=unit, key="plate-1", sha256="0" * 64, stage="plate",
                                author=alice, width=4000, height=3000)


def scale(plate, points, lengths, u=0.00002):
    return PhotoScale.objects.create(photo=plate, points=points, lengths=lengths,
                                     length_uncertainty=u, author=plate.author)


def reading(plate, row, value, budget, shows="component/c1", **more):
    u = float(np.hypot.reduce([share for _, share in budget])) if budget else 1e-4
    return PhotoReading.objects.create(
        photo=plate, scale=row, shows=shows, shape="line", points=[], value=value, uncertainty=u,
        budget=budget, author=plate.author, **more)


def told(plate, *readings):
    return compared(readings, NAMES, Links(plate.unit_id))


def spaced(text):
    return text.replace("\u202f", " ").replace("\xa0", " ")


def agreement_of(plate, first, second):
    (length,) = told(plate, first, second)
    assert length["rows"][0]["agreement"] == ""
    return spaced(length["rows"][1]["agreement"])


def test_a_reading_is_shown_with_its_95_percent_interval(plate):
    row = scale(plate, CORNERS, [0.02, 0.01])
    one = reading(plate, row, 0.0062, [["Lens", 0.0001]])
    (length,) = told(plate, one)
    # U = 2 u = 0.2 mm; one digit is kept of it (JCGM 100:2008, 7.2.6).
    assert (length["name"], spaced(length["rows"][0]["value"])) == ("bulk capacitor C1",
                                                                    "6.2 ± 0.2 mm")


def test_readings_of_several_lengths_stand_apart(plate):
    row = scale(plate, CORNERS, [0.02, 0.01])
    rows = [reading(plate, row, 0.006, []), reading(plate, row, 0.02, [], shows="component/gone"),
            reading(plate, row, 0.0061, [], blind=True)]
    found = told(plate, *rows)
    assert [(each["name"], len(each["rows"])) for each in found] == [("bulk capacitor C1", 2),
                                                                     ("component/gone", 1)]


def test_two_readings_agree_within_twice_their_uncertainty_together(plate):
    one, two = (scale(plate, CORNERS, [0.02, 0.01]) for _ in range(2))
    first = reading(plate, one, 0.0060, [["Lens", 0.0003]])
    # 2 √(0.3² + 0.4²) mm = 1.0 mm: 0.9 mm apart agrees, 1.1 mm does not.
    near = reading(plate, two, 0.0069, [["Lens", 0.0004]])
    far = reading(plate, two, 0.0071, [["Lens", 0.0004]])
    assert agreement_of(plate, first, near) == "0.90 mm apart; agrees with the first"
    assert agreement_of(plate, first, far) == "1.1 mm apart; does not agree with the first"


def test_the_error_of_a_scale_that_both_used_does_not_make_them_agree(plate):
    one, two = (scale(plate, CORNERS, [0.02, 0.01]) for _ in range(2))
    budget = [[SHARED[0], 0.001], ["Lens", 0.0001]]
    first = reading(plate, one, 0.0060, budget)
    # 0.5 mm apart: more than 2 √(0.1² + 0.1²) = 0.28 mm, less than with the scale's 1 mm each.
    assert "does not agree" in agreement_of(plate, first, reading(plate, one, 0.0065, budget))
    assert "agrees" in agreement_of(plate, first, reading(plate, two, 0.0065, budget))


def test_readings_that_say_nothing_of_their_errors_are_not_judged(plate):
    row = scale(plate, CORNERS, [0.02, 0.01])
    said = agreement_of(plate, reading(plate, row, 0.006, []), reading(plate, row, 0.0061, []))
    assert said == "0.10 mm apart; the evidence does not decide whether they agree"


# Clicks

def test_how_far_a_click_may_be_off_is_said_with_where_that_comes_from(plate):
    row = scale(plate, CORNERS, [0.02, 0.01])
    clicks = PhotoClicks.objects.create(photo=plate, points=[[1, 1]] * 5, uncertainty=1.3,
                                        author=plate.author)
    # U = 2 u.
    for more, words in (
            ({}, ""), ({"click_uncertainty": 3.0}, "One click: ± 6.0 px (95 %), assumed: nobody "
                                                   "clicked one point again and again."),
            ({"click_uncertainty": 1.3, "clicks": clicks},
             "One click: ± 2.6 px (95 %), from 5 clicks on one point.")):
        (length,) = told(plate, reading(plate, row, 0.006, [], **more))
        assert spaced(length["rows"][0]["click"]) == words


def test_pixels_have_one_decimal():
    assert spaced(print_pixels(2.345)) == "2.3 px"


# Grooves and slots

def test_a_surface_says_which_grooves_are_bridged_and_why(plate):
    row = scale(plate, CORNERS, [0.02, 0.01])
    grooves = {"narrowest_groove": 0.0008, "pollution_degree": 3, "clearance": 0.0024}
    (length,) = told(plate, reading(plate, row, 0.006, [], **grooves))
    assert spaced(length["rows"][0]["groove"]) == (
        "grooves narrower than 0.80 mm (pollution degree 3, required clearance 2.4 mm) bridged")


def test_an_older_reading_that_kept_no_degree_still_says_its_groove(plate):
    row = scale(plate, CORNERS, [0.02, 0.01])
    (length,) = told(plate, reading(plate, row, 0.006, [], narrowest_groove=0.001))
    assert spaced(length["rows"][0]["groove"]) == "grooves narrower than 1.0 mm bridged"


SLOT = {"corners": [[195, 100], [205, 100], [205, 200], [195, 200]], "open_corners": [],
        "way": [[170, 150], [195, 200], [205, 200], [230, 150]], "straight": 0.006,
        "width": 0.0012, "width_u": 0.00005, "counts": True, "is_sure": True}


def slot(**changed):
    return spaced(slot_told(PhotoReading(slot=SLOT | changed, narrowest_groove=0.001,
                                         pollution_degree=2)))


def test_the_way_round_a_slot_is_said_by_its_corners():
    assert slot() == (
        "It goes round the slot by corners 4 and 3; straight across would be 6.00 mm. The slot is "
        "1.20 ± 0.10 mm wide, X is 1.0 mm (pollution degree 2).")


def test_a_slot_that_is_crossed_or_out_of_the_way_is_said_to_be():
    assert slot(counts=False).endswith("narrower than X, 1.0 mm (pollution degree 2): it is "
                                       "crossed.")
    assert slot(way=[[170, 150], [230, 150]]).endswith("the straight way does not cross it.")


def test_where_the_picture_does_not_decide_whether_it_counts_that_is_said():
    assert "does not decide whether the slot is wide enough" in slot(is_sure=False)
    assert "If it counts, the way is longer." in slot(is_sure=False, counts=False)


def test_a_reading_without_a_slot_says_nothing_of_one():
    assert slot_told(PhotoReading()) == ""


# Temperatures

def test_a_temperature_is_told_as_shown_and_as_set_right_with_its_legend(plate):
    row = PhotoTemperature.objects.create(
        photo=plate, shows="component/c1", shape="box", points=[], reading=70.0,
        set_emissivity=1.0, emissivity=0.95, background=25.0, legend_low=24.5, legend_high=88.0,
        value=71.93, uncertainty=1.5, author=plate.author)
    (said,) = temperatures_told([row], NAMES, Links(plate.unit_id))
    assert (said["name"], said["where"], spaced(said["value"])) == (
        "bulk capacitor C1", "area", "72 ± 3 °C")
    assert spaced(said["legend"]) == "24.5 to 88 °C"


def test_a_legend_that_was_not_recorded_has_no_ends(plate):
    row = PhotoTemperature(
        photo=plate, shows="component/gone", shape="point", reading=70.0, set_emissivity=1.0,
        emissivity=0.95, background=25.0, value=71.93, uncertainty=1.5, author=plate.author,
        created_at=plate.created_at)
    (said,) = temperatures_told([row], NAMES, Links(plate.unit_id))
    assert (said["legend"], said["evidence"], said["where"]) == ("", "", "spot")
