import pytest

from teardowns import search_engines
from teardowns.models import SearchText
from tests.core.doctor.found import bad
from tests.published import published

pytestmark = pytest.mark.django_db


def test_an_index_that_lacks_something_is_a_fault(monkeypatch):
    monkeypatch.setattr(search_engines, "missing", lambda connection: ["searchtext_lexemes"])
    assert "lacks searchtext_lexemes" in bad("search")


def test_public_units_of_which_no_word_is_found_are_said(unit):
    published(unit)
    assert bad("search") == ""
    SearchText.objects.all().delete()
    assert "no word of them" in bad("search")
