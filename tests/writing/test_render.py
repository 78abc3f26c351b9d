"""The small language: what it makes, what it leaves as typed, and that nothing gets through it.

Expected markup follows the rules of CommonMark 0.31.2, by section.
"""
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardowns.writing import clean, plain_excerpt, render
from tests.hostile.comments import HOSTILE

from .allowed import check_allowed, text_of

TYPED = st.lists(st.sampled_from([
    "*", "**", "_", "`", "```", "\n", "\n\n", "> ", "- ", "1. ", "    ", "[", "](", ")", "![", "<",
    ">", "\\", "&lt;", "#", "|", "word", "https://evil.example", "javascript:alert(1)", '"',
    "<img src=x onerror=alert(1)>", "<script>", "\u202e", "\x00"]), max_size=40).map("".join)


@pytest.mark.parametrize("links", [True, False])
@pytest.mark.parametrize("text", HOSTILE)
def test_nothing_hostile_gets_through(text, links):
    check_allowed(render(text, links=links))


@settings(max_examples=300, deadline=None)
@given(TYPED)
def test_nothing_put_together_gets_through_and_cleaning_again_changes_nothing(text):
    html = render(text)
    check_allowed(html)
    assert clean(html) == html


def test_there_are_enough_hostile_texts():
    assert len(set(HOSTILE)) >= 60


@pytest.mark.parametrize(("typed", "made"), [
    ("one\n\ntwo", "<p>one</p>\n<p>two</p>\n"),                                     # 4.8
    ("*a* and **b**", "<p><em>a</em> and <strong>b</strong></p>\n"),                # 6.2
    ("`a < b`", "<p><code>a &lt; b</code></p>\n"),                                  # 6.1
    ("```\na\n```", "<pre><code>a\n</code></pre>\n"),                               # 4.5
    ("- a\n- b", "<ul>\n<li>a</li>\n<li>b</li>\n</ul>\n"),                          # 5.3
    ("3. a", '<ol start="3">\n<li>a</li>\n</ol>\n'),                                # 5.3
    ("> a", "<blockquote>\n<p>a</p>\n</blockquote>\n"),                             # 5.1
    ("\\*a\\*", "<p>*a*</p>\n"),                                                    # 2.4
])
def test_the_language_makes_what_its_specification_says(typed, made):
    assert render(typed) == made


def test_a_line_ends_where_it_was_ended():
    assert render("one\ntwo") == "<p>one<br>\ntwo</p>\n"


@pytest.mark.parametrize("typed", ["# Heading", "<b>bold</b>", "&lt;", "a | b", "***", "<!-- a -->",
                                   "[x](javascript:alert(1))", "[x](/sign-out/)", "<a@b.example>"])
def test_what_is_not_of_the_language_is_shown_as_it_was_typed(typed):
    assert text_of(render(typed)).strip() == typed


def test_a_link_tells_the_host_it_leads_to():
    html = render("[https://good.example](https://x@evil.example/a)")
    assert html == ('<p><a href="https://x@evil.example/a" rel="nofollow ugc noopener">'
                    "https://good.example</a> (evil.example)</p>\n")


def test_a_bare_address_in_angle_brackets_is_a_link_and_needs_no_host_beside_it():
    assert text_of(render("<https://a.example/b>")) == "https://a.example/b\n"


def test_letters_that_only_look_like_a_known_host_are_told_by_the_name_in_ascii():
    # U+0430 is the Cyrillic a; RFC 3492 writes it as below (by Python's own codec).
    host = "\u0430.example".encode("idna").decode()
    assert f"({host})" in render("<https://\u0430.example>")


def test_a_link_without_words_gets_its_host_for_words():
    assert ">a.example</a>" in render("[](https://a.example/b)")


def test_without_links_an_address_stays_as_it_was_typed():
    typed = "[x](https://a.example) <https://a.example>"
    html = render(typed, links=False)
    assert "<a" not in html and text_of(html).strip() == typed


def test_text_too_deep_for_a_page_is_shown_whole_and_flat():
    typed = ">" * 500 + " the end"
    assert text_of(render(typed)).strip() == typed


def test_what_shows_nothing_is_taken_out():
    assert text_of(render("a\x00b\u202ec\x1bd")).strip() == "abcd"


def test_an_excerpt_is_one_line_cut_between_words():
    assert plain_excerpt("one\n\n two  three", 100) == "one two three"
    assert plain_excerpt("one two three", 9) == "one two …"
