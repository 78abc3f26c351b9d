"""Letters for pictures: none is an empty box."""
from teardowns.printouts import letters
from teardowns.printouts.letters import pieces, width_of, wrapped

UNKNOWN = "\U0010fff0"                  # private use: no font at hand can have it


def text_of(found):
    return "".join(part for part, _ in found)


def test_what_no_font_has_is_told_by_its_code_point():
    assert text_of(pieces(f"a{UNKNOWN}b", "sans", 20)) == "a[U+10FFF0]b"


def test_without_the_packages_of_fonts_latin_words_are_still_drawn(monkeypatch, tmp_path):
    monkeypatch.setattr(letters, "FOLDER", tmp_path)
    for cached in (letters.fonts, letters._font_of):
        cached.cache_clear()
    try:
        assert text_of(pieces("Unit 20", "serif", 20)) == "Unit 20"
    finally:
        for cached in (letters.fonts, letters._font_of):
            cached.cache_clear()


def test_lines_keep_to_the_width_and_say_that_there_is_more():
    lines = wrapped("word " * 40, "sans", 20, 200, 2)
    assert len(lines) == 2 and lines[-1].endswith("…")
    assert all(width_of(line, "sans", 20) <= 200 for line in lines)


def test_a_single_word_wider_than_the_line_is_cut():
    line, = wrapped("W" * 100, "sans", 20, 200, 1)
    assert line.endswith("…") and width_of(line, "sans", 20) <= 200
