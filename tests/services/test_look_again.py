"""Whose saved search finds a unit that it did not find before is told, once."""
import pytest

from teardowns.models import Notice, SavedSearch
from teardowns.services import look_again as service
from teardowns.services.look_again import look_again
from teardowns.services.packed_units import unpack
from teardowns.services.save_search import save_search
from tests.views.listed import assess, enlist, listed, publish

pytestmark = pytest.mark.django_db


@pytest.fixture
def search(bob):
    return save_search(person=bob, name="mine", text="", choices={"verdict": ("doubtful",)})[0]


def told():
    return list(Notice.objects.order_by("pk").values_list("unit__title", "words"))


def new_version(unit, verdict):
    """The next version of the unit, with another verdict."""
    assess(unit, rulebook=f"1+{unit.publications.count()}", verdict=verdict)
    publish(unit, unit.published_at)
    enlist(unit)


def test_a_unit_that_is_published_and_found_is_told_of_once(search):
    listed("found", verdict="doubtful")
    listed("other", verdict="possible")
    look_again()
    look_again()
    assert told() == [("found", "Search “mine”")]


def test_what_was_found_from_the_start_is_no_news(bob):
    unit = listed("there", verdict="doubtful")
    save_search(person=bob, name="mine", text="", choices={"verdict": ("doubtful",)})
    enlist(unit)
    look_again()
    assert told() == []


def test_a_new_version_that_is_found_for_the_first_time_is_told(search):
    unit = listed("A charger", verdict="possible")
    look_again()
    new_version(unit, "doubtful")
    look_again()
    assert told() == [("A charger", "Search “mine”")]


def test_a_new_version_of_what_was_found_before_is_not(search):
    unit = listed("A charger", verdict="doubtful")
    look_again()
    new_version(unit, "doubtful")
    look_again()
    assert len(told()) == 1


def test_a_version_that_comes_back_is_not_told_again_and_a_later_one_is(search):
    unit = listed("A charger", verdict="doubtful")
    look_again()
    for is_listed in (False, True):
        enlist(unit, is_listed=is_listed)
        look_again()
    assert len(told()) == 1
    new_version(unit, "possible")
    look_again()
    new_version(unit, "doubtful")
    look_again()
    assert len(told()) == 2


def test_a_notice_that_was_read_is_not_repeated_when_an_older_state_is_looked_at_again(search):
    before = SavedSearch.objects.get()
    listed("found", verdict="doubtful")
    look_again()
    Notice.objects.update(read_at="2026-03-01T12:00Z")
    before.save()                                # as if a run had broken off before it was kept
    look_again()
    assert len(told()) == 1


def test_ones_own_unit_counts_too(alice):
    save_search(person=alice, name="own", text="", choices={"verdict": ("doubtful",)})
    listed("hers", verdict="doubtful")
    look_again()
    assert told() == [("hers", "Search “own”")]


def test_words_are_looked_for_as_the_list_does(bob):
    save_search(person=bob, name="words", text="corven ab27", choices={})
    listed("Corven adapter", marking="AB27X6")
    listed("Corven other")
    look_again()
    assert told() == [("Corven adapter", "Search “words”")]


def test_of_many_at_once_the_newest_are_named_and_the_others_counted(search, monkeypatch):
    monkeypatch.setattr(service, "TOLD_EACH", 2)
    for number in range(5):
        listed(f"Unit {number}", verdict="doubtful")
    look_again()
    assert told() == [("Unit 4", "Search “mine”"), ("Unit 3", "Search “mine”"),
                      (None, "Search “mine”: 3 more")]
    assert Notice.objects.get(unit=None).address == "/units/?verdict=doubtful"


def test_an_account_that_is_closed_is_told_nothing(search, bob):
    bob.is_active = False
    bob.save()
    listed("found", verdict="doubtful")
    look_again()
    assert told() == []


def test_slices_follow_each_other_to_the_end(bob, rita):
    for person in (bob, rita):
        save_search(person=person, name="mine", text="", choices={"verdict": ("doubtful",)})
    listed("found", verdict="doubtful")
    after = look_again(size=1)
    assert after == SavedSearch.objects.earliest("pk").pk and len(told()) == 1
    assert look_again(after, size=1) is not None and len(told()) == 2
    assert look_again(size=1) is None


def test_what_it_knows_stays_what_the_list_finds(search):
    kept = [listed(f"Unit {n}", verdict="doubtful") for n in range(3)]
    enlist(kept[0], is_listed=False)
    look_again()
    search.refresh_from_db()
    assert unpack(search.found) == {kept[1].pk, kept[2].pk}


def test_a_facet_that_is_no_more_finds_nothing_and_stops_nobody_else(bob, search):
    SavedSearch.objects.create(person=bob, name="old", choices={"colour": ["red"]}, digest="1" * 64)
    listed("found", verdict="doubtful")
    assert look_again() is None
    assert told() == [("found", "Search “mine”")]
