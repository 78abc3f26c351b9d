"""Cursors come back as they went out, and what is none leads nowhere."""
import pytest
from django.http import Http404
from hypothesis import given
from hypothesis import strategies as st

from teardowns.api.paging import LARGEST, cursor_of, place_of


@given(st.integers(-LARGEST, LARGEST), st.text(max_size=40))
def test_a_place_comes_back_as_it_went_out(number, text):
    assert place_of(cursor_of(number, text), int, str) == (number, text)


def test_the_first_page_has_no_place():
    assert place_of("", int) is None


@pytest.mark.parametrize("after", [("a",), (1, 2), (2**64,), (True,), (1.5,), ()])
def test_a_place_of_another_kind_is_none(after):
    with pytest.raises(Http404):
        place_of(cursor_of(*after), int)


@given(st.text(max_size=60))
def test_any_text_is_a_place_or_leads_nowhere(text):
    try:
        place = place_of(text, int)
    except Http404:
        return
    assert place is None or isinstance(place[0], int)
