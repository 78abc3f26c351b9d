"""Keep a question to the list, once, and no more than so many."""
import pytest

from teardowns.models import SavedSearch
from teardowns.services import save_search as service
from teardowns.services.packed_units import unpack
from teardowns.services.save_search import drop_search, rename_search, save_search
from teardowns.workflow import NotNow
from tests.views.listed import listed

pytestmark = pytest.mark.django_db
DOUBTFUL = {"verdict": ("doubtful",)}


def save(person, text="", choices=None, name="mine"):
    return save_search(person=person, name=name, text=text, choices=choices or {})


def test_it_knows_the_units_that_it_finds_already(bob):
    there = listed("there", verdict="doubtful")
    listed("other", verdict="possible")
    search, is_new = save(bob, choices=DOUBTFUL)
    assert is_new and unpack(search.found) == {there.pk} and search.looked > 0


def test_words_and_choices_narrow_together(bob):
    both = listed("Corven adapter", verdict="doubtful")
    listed("Corven other", verdict="possible")
    search, _ = save(bob, text="corven", choices=DOUBTFUL)
    assert unpack(search.found) == {both.pk}


def test_the_same_question_in_another_order_or_case_is_the_same(bob, rita):
    first, _ = save(bob, text="Corven  45", choices={"kind": ("desktop", "other"), **DOUBTFUL})
    again, is_new = save(bob, text="corven 45", choices={**DOUBTFUL, "kind": ("other", "desktop")})
    assert again == first and not is_new
    assert save(rita, text="corven 45", choices=first.choices)[1]


def test_a_question_for_everything_is_refused(bob):
    with pytest.raises(NotNow, match="watch every unit"):
        save(bob, choices={"verdict": ()})


def test_there_may_be_so_many_and_the_refusal_says_what_to_do(bob, monkeypatch):
    monkeypatch.setattr(service, "MOST", 2)
    for text in ("a", "b"):
        save(bob, text=text)
    with pytest.raises(NotNow, match="Drop one of them"):
        save(bob, text="c")
    assert not save(bob, text="a")[1]            # kept already: no refusal


def test_nobody_renames_or_drops_anothers(bob, rita):
    search, _ = save(bob, text="a")
    assert not rename_search(person=rita, pk=search.pk, name="hers")
    assert not drop_search(person=rita, pk=search.pk) and SavedSearch.objects.count() == 1
    assert rename_search(person=bob, pk=search.pk, name="his")
    assert drop_search(person=bob, pk=search.pk) and not drop_search(person=bob, pk=search.pk)
