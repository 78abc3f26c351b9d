"""What stands behind each row of a review."""
import pytest
from django.http import Http404

from teardowns.models import PhotoReading, Recording, RecordingReading
from teardowns.services.review_rows import (
    photos_of,
    row_under_review,
    said_of,
    unit_under_review,
)
from tests.reviews import decide, handed_in, take_on

pytestmark = pytest.mark.django_db


@pytest.fixture
def held(photo, unit, rita):
    handed_in(unit, {"photo": photo})
    take_on(rita, unit)
    return unit


def read(photo, author, value, blind=False):
    scale = photo.scales.create(points=[[0, 0], [9, 0]], lengths=[0.01], author=author)
    return PhotoReading.objects.create(
        photo=photo, scale=scale, shows="measurement/m0", shape="line", points=[[0, 0], [9, 9]],
        budget=[], value=value, uncertainty=0.001, author=author, blind=blind)


def row(unit, reviewer):
    return row_under_review(unit, reviewer, "measurement", "m0")


def test_the_unit_comes_with_its_review_in_one_query(held, rita, django_assert_num_queries):
    with django_assert_num_queries(1):
        unit = unit_under_review(rita, held.pk)
    assert (unit.work_status, unit.work_author) == ("in_review", held.contributor_id)
    assert unit.held_pk == held.reviews.get().pk and "rests" in unit.held_sides


def test_nobody_else_has_it(held, rolf, alice):
    for person in (rolf, alice):
        with pytest.raises(Http404):
            unit_under_review(person, held.pk)


def test_a_row_has_its_first_reading_and_the_reviewers_own_blind_one(held, photo, rita, rolf):
    first = read(photo, held.contributor, 0.03)
    read(photo, rolf, 0.9, blind=True)
    read(photo, rita, 0.031, blind=True)
    found = row(held, rita)
    assert (found.first_reading, found.own_value) == (first.pk, 0.031)


def test_a_row_has_its_place_in_a_log(held, rita):
    log = Recording.objects.create(unit=held, key="sweep", kind="load_sweep", sha256="0" * 64,
                                   author=held.contributor)
    held.measurements.update(recording=log)
    RecordingReading.objects.create(recording=log, code="mass_total", name="mass_total#2",
                                    start=720.0, end=1320.0, value=1.0, uncertainty=0.1,
                                    shows="measurement/m0", author=held.contributor)
    found = row(held, rita)
    assert (found.span_name, found.span_start, found.span_end) == ("mass_total#2", 720.0, 1320.0)


def test_a_row_that_is_not_there_is_none(held, rita):
    for kind, key in (("measurement", "m9"), ("unit", "m0"), ("claim", "m0")):
        assert row_under_review(held, rita, kind, key) is None


def test_every_word_is_there_with_its_name(held, rita):
    decide(rita, held, "disputed", reason="Blurred")
    decide(rita, held)
    assert [(each.name, each.word.decision) for each in said_of(held)] == [
        ("rita", "disputed"), ("rita", "confirmed")]


def test_a_photo_has_a_width_that_is_served_and_none_where_it_was_taken_down(
        held, photo, django_assert_num_queries):
    with django_assert_num_queries(1):
        shown = photos_of(held)[photo.key]
    assert photo.derivatives.filter(width=shown.picture).exists() and shown.marks == ()
    type(photo).objects.update(taken_down_at="2026-01-01T00:00Z")
    assert photos_of(held) == {}
