"""Texts of Python sources: f-strings with places, words that are chosen, and what is none."""
import pytest

from core.words.gather_python import paragraphs_of_docstring, strings_of_source, texts_of_source


@pytest.fixture
def texts(tmp_path):
    def of(source):
        file = tmp_path / "room.py"
        file.write_text(source)
        return [text for text, _ in texts_of_source(file)]
    return of


@pytest.mark.parametrize(("source", "found"), [
    ('said = "Not recorded."', ["Not recorded."]),
    ('said = "Clearance"', ["Clearance"]),
    ('said = ("One sentence "\n        "in two lines.")', ["One sentence in two lines."]),
    ('said = f"{name} was not recorded."', ["{name} was not recorded."]),
    ('said = f"{plain(low)} to {plain(high)} at most"', ["{plain} to {plain_2} at most"]),
    ('said = f"{unit.title!r}: {share:.0%} of it"', ["{title}: {share} of it"]),
    ('said = "So far " + words + " is known."', ["So far {words} is known."]),
    ('said = "Not recorded: {}.".format(words)', ["Not recorded: {p1}."]),
    ('said = "%(n)s units are kept" % values', ["{n} units are kept"]),
    ('said = f"It lies {side}"', ["It lies {side}"]),
    # One text for each of the words that are chosen between.
    ('said = f"{n} of them {\'lies\' if n == 1 else \'lie\'} beyond it"',
     ["{n} of them lies beyond it", "{n} of them lie beyond it"]),
    ('said = "It is open." if n else "It is closed."', ["It is open.", "It is closed."]),
])
def test_it_is_a_text(texts, source, found):
    assert texts(source) == found


@pytest.mark.parametrize("source", [
    '"""What the module is for."""',
    'def read():\n    """What the function does."""',
    'class Row:\n    name: str\n    "What the field holds."',
    'raise TypeError("two defaults for one quantity")',
    'log.warning("the job was given up")',
    'connection.execute("SELECT one FROM another WHERE it = 1")',
    'rows = table["the name of a column"]',
    'ok = words == "found and kept"',
    'field = Field(help="for the operator alone", source="A book, p. 12")',
    'import os',
    'key = "bulk_capacitor"', 'sign = "W/g"', 'word = "shock"', 'html = "<b>of it</b>"',
    'pattern = r"\\d+ of them"',
])
def test_it_is_no_text(texts, source):
    assert texts(source) == []


def test_words_of_a_formula_are_texts_and_its_units_are_none(texts):
    source = 'Rule(formula=equation(sym("P"), word(" for a bridge, "), word("or"), word("mm")))'
    assert texts(source) == ["for a bridge,", "or"]


def test_a_text_inside_a_value_is_found_too(texts):
    assert texts('said = f"{words.get(kind, \'not known\')}: see below"') == [
        "{get}: see below", "not known"]


def test_too_many_variants_are_one_text_with_places(texts):
    choices = "".join(f"{{'red' if a{n} else 'blue'}} " for n in range(5))
    (text,) = texts(f'said = f"{choices}all in a row"')
    assert text == "{p} {p_2} {p_3} {p_4} {p_5} all in a row"


def test_the_line_is_told(tmp_path):
    file = tmp_path / "room.py"
    file.write_text('\n\nsaid = "Not recorded."\n')
    assert list(texts_of_source(file)) == [("Not recorded.", 3)]


def test_every_string_may_stand_in_a_catalogue_by_hand(tmp_path):
    file = tmp_path / "room.py"
    file.write_text('word = "shock"\nkind = {"X2": 1}\n')
    assert list(strings_of_source(file)) == ["shock", "X2"]


def test_a_docstring_is_paragraphs_for_who_reads_it(tmp_path):
    file = tmp_path / "rule.py"
    file.write_text('"""One line.\n\nAnother, of\ntwo lines.\n"""\n')
    assert list(paragraphs_of_docstring(file)) == ["One line.", "Another, of two lines."]
