"""Which published units contain a part: by their public versions, whatever is being written."""
import pytest

from teardowns.models import Component, Correction, Status, Unit
from teardowns.services.part_uses import numbers_of_units, units_with_part
from tests.library import contain, listed
from tests.published import published

pytestmark = pytest.mark.django_db


@pytest.fixture
def part(mona):
    return listed(mona)


def correct(unit):
    Correction.objects.create(unit=unit, author=unit.contributor, base=unit.publication,
                              reason="A misread marking.")


def found(part):
    units = units_with_part(part)
    assert units.number == numbers_of_units([part])[part.pk] == len(units.units)
    return [one.pk for one in units.units]


def test_a_draft_contains_nothing_in_public(unit, part):
    contain(unit, part)
    assert found(part) == []


def test_a_published_unit_is_named_once_with_all_its_rows(unit, part):
    contain(unit, part)
    contain(unit, part, "second", designator="U2")
    published(unit)
    assert found(part) == [unit.pk]
    rows = units_with_part(part).units[0].rows
    assert [row["key"] for row in rows] == ["ctrl", "second"]


@pytest.mark.parametrize("fields", [
    {"review_state": "disputed"}, {"state": "not_readable", "marking": ""}])
def test_what_is_disputed_or_not_read_is_not_contained(unit, part, fields):
    contain(unit, part, **fields)
    published(unit)
    assert found(part) == []


def test_hidden_and_withdrawn_units_are_left_out(unit, part):
    contain(unit, part)
    published(unit)
    Unit.objects.update(status=Status.WITHDRAWN)
    assert found(part) == []


def test_an_open_correction_adds_nothing_and_takes_nothing_away(unit, part, mona):
    other = listed(mona, "PZ6319", None)
    contain(unit, part)
    published(unit)
    correct(unit)
    Component.objects.get().delete()
    contain(unit, other, "other")
    assert (found(part), found(other)) == ([unit.pk], [])


def test_the_newest_come_first_in_two_queries(alice, part, django_assert_num_queries):
    units = [Unit.objects.create(contributor=alice, title=f"Unit {n}") for n in range(3)]
    for unit in units:
        contain(unit, part)
        published(unit)
    correct(units[0])
    with django_assert_num_queries(2):
        assert [one.pk for one in units_with_part(part).units] == [u.pk for u in units[::-1]]


def test_numbers_are_counted_once_until_something_is_published(
        unit, alice, part, django_assert_num_queries):
    contain(unit, part)
    published(unit)
    assert numbers_of_units([part]) == {part.pk: 1}
    with django_assert_num_queries(1):
        assert numbers_of_units([part]) == {part.pk: 1}
    other = Unit.objects.create(contributor=alice, title="Another")
    contain(other, part)
    published(other)
    assert numbers_of_units([part]) == {part.pk: 2}
