"""What a saved search is called."""
import pytest

from teardowns.forms.search_name_form import SearchNameForm


def test_spaces_around_a_name_go():
    form = SearchNameForm({"name": "  Corven 45 W "})
    assert form.is_valid() and form.cleaned_data["name"] == "Corven 45 W"


@pytest.mark.parametrize(("typed", "remedy"), [
    ("", "write a word or two"), ("  ", "write a word or two"), ("x" * 121, "shorten it"),
    ("a\0b", "type the name anew")])
def test_what_is_no_name_is_refused_with_the_remedy(typed, remedy):
    assert remedy in SearchNameForm({"name": typed}).errors["name"][0]
