"""A saved search is its asker's alone."""
import pytest

from core.accounts.services.delete_account import delete_account
from core.accounts.services.export_account import export_account
from teardowns.models import SavedSearch
from teardowns.services.save_search import save_search


@pytest.mark.django_db
def test_it_goes_with_the_account_and_stands_in_what_is_exported(bob):
    save_search(person=bob, name="Corven’s", text="corven", choices={})
    (row,) = export_account(person=bob)["records"]["teardowns.savedsearch by person"]
    assert (row["name"], row["text"]) == ("Corven’s", "corven")
    delete_account(person=bob)
    assert not SavedSearch.objects.exists()
