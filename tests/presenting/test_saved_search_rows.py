"""The searches that a person watches, as a list."""
from datetime import UTC, datetime

from teardowns.forms.search_name_form import SearchNameForm
from teardowns.models import SavedSearch
from teardowns.presenting.saved_search_rows import saved_search_rows


def rows(renamed=0, form=None):
    day = datetime(2026, 3, 1, tzinfo=UTC)
    searches = [SavedSearch(pk=pk, name=name, text=name, created_at=day)
                for pk, name in ((1, "a"), (2, "b"))]
    return saved_search_rows(searches, renamed, form)


def test_each_leads_to_what_it_finds():
    assert [(row["name"], row["address"], row["since"]) for row in rows()] == [
        ("a", "/units/?q=a", "2026-03-01"), ("b", "/units/?q=b", "2026-03-01")]


def test_an_error_stands_at_its_own_search_with_what_was_typed():
    form = SearchNameForm({"name": "x" * 121})
    first, second = rows(2, form)
    assert (first["typed"], first["error"]) == ("a", "")
    assert second["typed"] == "x" * 121 and "longer than 120 characters" in second["error"]
