"""The rulebook of the site: as it is in the files, or with the set that is in force."""
import pytest

from teardowns.engine import rulebook
from teardowns.models import ReferenceSet, Unit
from teardowns.services.active_rulebook import active_rulebook, rulebook_beside, rulebook_with

pytestmark = pytest.mark.django_db
HABIT = {"unit": "g", "intercept": 2.302585092994046, "slope": 1.3, "residual_sd": 0.2, "n": 20,
         "middle": 3.912023005428146, "square": 6.0, "smallest": 20.0, "largest": 160.0}


def stored(number, **fields):
    return ReferenceSet.objects.create(**{
        "number": number, "digest": f"{number:064x}", "rulebook": "1+0a1b2c3d",
        "habits": {"power/mass_per_watt": HABIT}, "units": {}, "excluded": {}} | fields)


def test_without_a_set_it_is_the_one_of_the_files():
    assert active_rulebook() is rulebook.load() is rulebook_with(None)


def test_a_set_that_is_not_in_force_changes_nothing():
    stored(1)
    assert active_rulebook() is rulebook.load()


def test_the_set_in_force_replaces_its_habits_and_stands_in_the_version():
    stored(1)
    stored(2, is_active=True)
    book = active_rulebook()
    assert book.version == f"{rulebook.load().version}+set2-00000000"
    assert "20 published units" in book["power/mass_per_watt"].source


def test_a_unit_brings_it_along_in_its_own_query(unit, django_assert_num_queries):
    stored(2, is_active=True)
    with django_assert_num_queries(1):
        book = rulebook_beside(Unit.objects.with_active_set().get(pk=unit.pk))
    assert book.version == active_rulebook().version
    assert book["power/mass_per_watt"].habit == active_rulebook()["power/mass_per_watt"].habit


def test_without_a_set_a_unit_brings_the_one_of_the_files(unit):
    assert rulebook_beside(Unit.objects.with_active_set().get(pk=unit.pk)) is rulebook.load()


def test_numbers_come_back_from_the_database_as_they_went_in():
    reloaded = ReferenceSet.objects.get(pk=stored(1).pk)
    learned = rulebook_with(reloaded)["power/mass_per_watt"].habit.learned
    assert (learned.intercept, learned.middle) == (2.302585092994046, 3.912023005428146)
