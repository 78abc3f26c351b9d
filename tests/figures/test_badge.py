"""The drawing of a verdict to embed."""
from xml.etree.ElementTree import fromstring

from teardowns.figures.badge import badge

SVG = "{http://www.w3.org/2000/svg}"


def test_words_of_people_stay_words():
    root = fromstring(badge(["<script>&", "b", "c"], 'a "b"'))
    assert [text.text for text in root.iter(f"{SVG}text")] == ["<script>&", "b", "c"]
    assert root.find(f"{SVG}title").text == 'a "b"'


def test_it_grows_with_its_longest_line():
    narrow, wide = (int(fromstring(badge([line], "")).get("width")) for line in ("ab", "a" * 60))
    assert wide > narrow


def test_the_bold_line_has_room_too():
    """A bold line is wider than a plain one of as many letters, and comes second."""
    plain, bold = (int(fromstring(badge(lines, "")).get("width"))
                   for lines in (["a" * 60, "b"], ["b", "a" * 60]))
    assert bold > plain


def test_it_states_nothing_that_needs_a_style_sheet_or_a_script():
    assert not any(sign in badge(["a"], "b") for sign in ("style=", "class=", "<style", "script"))
