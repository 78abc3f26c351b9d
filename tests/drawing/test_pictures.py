import json

import pytest

from teardowns.drawing.picture import STAGES
from teardowns.drawing.pictures import pictures_of

from .units import demo, document, drawn

LISTS = {"component": "components", "path": "insulation", "winding": "stack",
         "measurement": "measurements", "port": "ports", "claim": "claims"}
POINTS = {"point": (1, 1), "line": (2, 2), "box": (2, 2), "path": (2, 99), "polygon": (3, 99)}
CORNERS = ("01", "09", "12", "13", "16", "19", "26", "23", "24", "28", "30", "31", "37")


def test_a_unit_of_which_nothing_was_recorded_has_no_pictures():
    assert pictures_of(document()) == []


def check_marks(unit, picture):
    for mark in picture.marks:
        kind, key = mark.shows.split("/")
        assert key in {row["key"] for row in unit[LISTS[kind]]}
        low, high = POINTS[mark.shape]
        assert low <= len(mark.points) <= high
        assert all(0 <= x <= picture.image.width and 0 <= y <= picture.image.height
                   for x, y in mark.points), (picture.key, mark)


@pytest.mark.parametrize("number", CORNERS)
def test_every_picture_has_its_own_key_words_and_marks_of_rows_of_the_document(number):
    pictures = pictures_of(demo(number))
    assert len({picture.key for picture in pictures}) == len(pictures)
    for picture in pictures:
        assert picture.stage in STAGES
        assert picture.caption and picture.alt and len(picture.caption) <= 300
        assert picture.image.size == (1600, 1200) and picture.image.mode == "RGB"
        check_marks(demo(number), picture)


def test_the_same_document_gives_the_same_pixels():
    first, second = pictures_of(demo("09")), pictures_of(json.loads(json.dumps(demo("09"))))
    assert [(p.key, p.image.tobytes(), p.marks) for p in first] == [
        (p.key, p.image.tobytes(), p.marks) for p in second]


def test_a_unit_that_was_opened_and_measured_shows_every_stage_in_order():
    assert list(dict.fromkeys(p.stage for p in pictures_of(demo("09")))) == list(STAGES)


def test_a_unit_that_was_only_weighed_and_measured_shows_no_inside():
    stages = {picture.stage for picture in drawn("37").values()}
    assert stages == {"as_received", "plate", "ports"}
