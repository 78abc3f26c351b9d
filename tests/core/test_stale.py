"""A lost race is told with both texts."""
from django.template.loader import render_to_string

from core.stale import Stale, both_texts

LABELS = {"title": "Title", "text": "Text", "mass": "Mass"}


def test_fields_that_differ_are_shown_with_both_texts():
    stale = Stale({"title": "Charger", "text": "Theirs", "mass": None}, version=4)
    typed = {"title": "Charger", "text": "Mine", "mass": ""}
    assert both_texts(stale, typed, LABELS) == [
        {"label": "Text", "yours": "Mine", "current": "Theirs"}]
    assert stale.version == 4


def test_ends_of_lines_are_no_difference():
    assert both_texts(Stale({"text": "a\nb"}), {"text": "a\r\nb\r\n"}, LABELS) == []


def test_the_part_of_a_page_shows_both_and_escapes_them():
    page = render_to_string("core/_stale.html", {
        "stale": [{"label": "Text", "yours": "<b>mine", "current": ""}]})
    assert "&lt;b&gt;mine" in page and "empty" in page and "nothing was saved" in page
