"""Words of the trade are found where they stand, and each says where its sentence is from."""
import pytest
from django.template import Context, Template
from django.utils import translation

from teardowns.presenting.trade_words import WORDS, words_in, words_named


def names(text):
    return [word.name for word in words_in(text)]


@pytest.mark.parametrize(("text", "found"), [
    ("Creepages of 5.0 mm", ["creepage"]), ("250 V rms, in other terms", ["rms"]),
    ("in other terms", []), ("Y10 and Y1", ["Y capacitor"]),
    ("90\u202f% interval", ["90 % interval"]),
    ("reinforced insulation", ["reinforced"]), ("a charger", []),
    ("Class II", ["class II"]), ("a class III device", []),
])
def test_a_word_is_found_as_it_begins_and_a_short_one_as_a_whole(text, found):
    assert names(text) == found


def test_words_are_found_in_the_language_of_the_reader():
    with translation.override("de"):
        assert names("Die Kriechstrecke im Gerät") == ["creepage"]


def test_every_word_has_one_plain_sentence_and_a_source():
    for word in WORDS:
        assert word.sentence.endswith(".") and ". " not in word.sentence and word.source
    assert len({word.name for word in WORDS}) == len(WORDS)


def test_what_a_part_of_a_page_says_is_explained_ahead_of_it():
    page = Template("{% load trade_words %}{% explained %}<p>Creepage: 5 mm</p>{% endexplained %}")
    shown = page.render(Context({"request": None}))
    assert shown.index("<dfn>creepage</dfn>") < shown.index("<p>Creepage")
    assert "clearance" not in shown
    assert page.render(Context()) == "<p>Creepage: 5 mm</p>"        # on paper


def test_names_in_tags_are_no_words_of_a_page():
    page = Template("{% load trade_words %}{% explained %}<p id='creepage'></p>{% endexplained %}")
    assert "dfn" not in page.render(Context({"request": None}))


def test_words_that_are_asked_for_come_in_that_order():
    assert [word.name for word in words_named(["rms", "creepage"])] == ["rms", "creepage"]


def test_behind_an_answer_its_words_are_explained_after_it():
    page = Template(
        "{% load trade_words %}{% explained after %}<p>Creepage: 5 mm</p>{% endexplained %}")
    shown = page.render(Context({"request": None}))
    assert shown.index("<p>Creepage") < shown.index("<dfn>creepage</dfn>")
