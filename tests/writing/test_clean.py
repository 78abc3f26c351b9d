"""Nothing outside the list survives, and cleaning twice is cleaning once."""
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardowns.writing import clean
from tests.hostile.comments import HOSTILE

from .allowed import check_allowed

PIECES = st.sampled_from([
    "<", ">", "/", "=", '"', "'", "`", "&", ";", "#", "!", "--", "]]>", " ", "\n", "\x00", "a",
    "script", "style", "svg", "math", "img", "iframe", "noscript", "template", "textarea", "ol",
    "href", "src", "onerror", "start", "javascript:", "https://", "//", "evil.example", "&lt;",
    "<a href=", "<p>", "</p>", "<code>", "</code>", "<pre>", "<br>", "<ol start=", "<li>", "<em>"])
HTML = st.lists(PIECES, max_size=40).map("".join)


@pytest.mark.parametrize("html", HOSTILE)
def test_hostile_html_leaves_nothing_outside_the_list(html):
    check_allowed(clean(html))


@settings(max_examples=300, deadline=None)
@given(HTML)
def test_whatever_is_put_together_leaves_nothing_outside_the_list(html):
    check_allowed(clean(html))


@settings(max_examples=300, deadline=None)
@given(HTML)
def test_cleaning_what_is_clean_changes_nothing(html):
    assert clean(clean(html)) == clean(html)


def test_an_empty_line_at_the_head_of_a_listing_stays():
    assert clean("<pre>\n\na</pre>") == "<pre>\n\na</pre>" == clean(clean("<pre>\n\na</pre>"))
    assert clean("<pre>\na</pre>") == "<pre>a</pre>"


def test_a_script_goes_with_what_it_held_and_other_tags_leave_their_words():
    assert clean("<script>alert(1)</script><h1>Withdrawn</h1>") == "Withdrawn"


@pytest.mark.parametrize("address", ["/sign-out/", "//evil.example", "?x", "mailto:a@b.example",
                                     "javascript:alert(1)", "https:evil.example", "data:,x"])
def test_an_address_that_is_not_a_whole_web_address_is_dropped(address):
    assert "href" not in clean(f'<a href="{address}">x</a>')


def test_a_web_address_is_kept_and_marked_as_somebody_elses():
    assert clean('<a href="https://a.example/b" target="_blank" rel="opener">x</a>') == (
        '<a href="https://a.example/b" rel="nofollow ugc noopener">x</a>')


def test_a_list_may_start_at_a_number_of_its_own_and_at_nothing_else():
    assert clean('<ol start="3"></ol>') == '<ol start="3"></ol>'
    assert "start" not in clean('<ol start="-1"></ol>') + clean('<ol start="1e9"></ol>')
