"""Versions that everybody may read."""
import pytest
from django.utils import timezone

from teardowns.models import Unit
from teardowns.services.public_versions import public_versions, shown_assessments
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def twice(unit):
    published(unit)
    published(unit)
    unit.refresh_from_db()
    return unit


def numbers(*asked):
    return [one.number for one in public_versions(asked)]


def test_without_a_number_it_is_the_one_that_stands(twice):
    assert numbers((twice.pk, None)) == [2]


def test_they_come_in_the_order_asked_for_and_once_each(twice):
    assert numbers((twice.pk, 1), (twice.pk, None), (twice.pk, 2)) == [1, 2]


def test_what_there_is_not_is_left_out(twice):
    assert numbers((twice.pk, 3), (10**6, None)) == []


def test_what_is_out_of_sight_is_left_out(twice):
    Unit.objects.filter(pk=twice.pk).update(quarantined_at=timezone.now())
    assert numbers((twice.pk, None), (twice.pk, 1)) == []


def test_an_older_version_keeps_the_numbers_of_its_day(twice):
    old, = public_versions([(twice.pk, 1)])
    assert shown_assessments(old) == (old.assessment, old.assessment_all)
