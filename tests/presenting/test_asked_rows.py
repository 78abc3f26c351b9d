import pytest

from teardowns.models import (
    Claim,
    Component,
    InsulationObservation,
    Measurement,
    PhotoScale,
    Port,
    PrintedText,
    StackLayer,
)
from teardowns.presenting.asked_rows import asked_rows, shown_photos
from teardowns.services.describe_photo import take_down_photo

pytestmark = pytest.mark.django_db


@pytest.fixture
def rows(unit, alice, photo):
    common = {"unit": unit, "author": alice}
    valued = {"value": 0.004, "uncertainty": 1e-4, "uncertainty_kind": "interval"}
    Measurement.objects.create(**common, key="m", quantity="failed_power", value=13.0,
                               mains_voltage=230.0)
    Component.objects.create(**common, key="c", role="fuse", state="not_found")
    PrintedText.objects.create(**common, key="t", source="plate", text="5V 2A")
    Claim.objects.create(**common, key="l", kind="output", text="5V 2A")
    Port.objects.create(**common, key="p", label="USB 1")
    StackLayer.objects.create(**common, key="s", position=2, kind="insulation")
    InsulationObservation.objects.create(**common, **valued, key="i", path="creepage", place="slot",
                                         method="photo_scale", photo=photo)
    return {row.kind: row for row in asked_rows(unit)}


def test_every_kind_of_row_is_there_once(rows, unit, django_assert_num_queries):
    assert len(rows) == 7
    with django_assert_num_queries(1):
        asked_rows(unit)


def test_a_row_says_which_it_is_and_how_it_was_looked_for(rows):
    assert (rows["component"].which, rows["component"].state) == ("fuse", "not_found")
    assert (rows["measurement"].which, rows["measurement"].mains) == ("failed_power", 230.0)
    assert rows["printedtext"].also == "5V 2A" and rows["measurement"].uncertainty is None


def test_a_distance_off_a_photo_names_it(rows, photo):
    found = rows["insulationobservation"]
    assert found.off_photo and found.photo == photo.pk and found.uncertainty == 1e-4
    assert (found.which, found.also) == ("PRI_SEC", "creepage")


def test_each_has_a_name_for_people(rows):
    assert {row.called for row in rows.values()} >= {
        "fuse", "the text of the rating plate", "the claim “5V 2A”", "port USB 1",
        "layer 2 of the transformer", "a distance, creepage"}


def test_a_photo_says_whether_it_has_a_scale(unit, photo, alice):
    assert [(each.stage, each.has_scale) for each in shown_photos(unit)] == [("solder_side", False)]
    PhotoScale.objects.create(photo=photo, points=[[0, 0], [9, 9]], lengths=[0.01], author=alice)
    assert shown_photos(unit)[0].has_scale


def test_a_photo_that_was_taken_down_is_not_asked_about(unit, photo, alice):
    take_down_photo(author=alice, photo=photo, reason="blurred")
    assert shown_photos(unit) == []
