"""The filters of templates: words of rooms, of several, and of pictures drawn on the server."""
import pytest
from django.template import engines
from django.utils.safestring import mark_safe
from django.utils.translation import override

from core.templatetags.said import said_formula
from core.words.as_written import AsWritten
from core.words.said import Catalogue

GERMAN = {"Bulk capacitor": "Zwischenkreiskondensator", "Fuse & core": "Sicherung & Kern",
          "{n} W claimed": "{n} W angegeben", "for half wave": "bei Einweggleichrichtung"}


@pytest.fixture(autouse=True)
def german(monkeypatch):
    monkeypatch.setattr("core.words.said.catalogue", lambda code: Catalogue(code, GERMAN))


def rendered(source, language="de", **values):
    with override(language):
        return engines["django"].from_string(source).render(values)


def test_a_text_is_said_and_escaped():
    assert rendered("{{ text|said }}", text="Bulk capacitor") == "Zwischenkreiskondensator"
    assert rendered("{{ text|said }}", text="Fuse & core") == "Sicherung &amp; Kern"
    assert rendered("{{ text|said }}", text="<b>") == "&lt;b&gt;"


@pytest.mark.parametrize("nothing", [None, "", 0])
def test_nothing_stays_nothing(nothing):
    assert rendered("{{ text|said }}", text=nothing) == rendered("{{ text }}", "en", text=nothing)


def test_finished_markup_and_what_a_person_wrote_stay():
    for text in (mark_safe("<b>Bulk capacitor</b>"), AsWritten("Bulk capacitor")):
        assert rendered("{{ text|said }}", text=text) == str(text)


def test_several_texts_are_said_each():
    assert rendered('{{ texts|said_each|join:", " }}', texts=["Bulk capacitor", "5.5 W"]) == (
        "Zwischenkreiskondensator, 5,5 W")


def test_only_the_words_of_a_picture_are_said():
    picture = mark_safe('<svg aria-label="Bulk capacitor"><g class="Bulk capacitor">'
                        '<text x="1.5" y="2.5">4.5 W claimed</text><title>Fuse &amp; core</title>'
                        "<text>12.5 W</text></g></svg>")
    said = rendered("{{ picture|said_picture }}", picture=picture)
    assert 'aria-label="Zwischenkreiskondensator"' in said and 'class="Bulk capacitor"' in said
    assert '<text x="1.5" y="2.5">4,5 W angegeben</text>' in said
    assert "<title>Sicherung &amp; Kern</title>" in said and "<text>12,5 W</text>" in said


def test_a_part_of_a_picture_that_a_person_wrote_stays():
    picture = mark_safe('<text translate="no">Bulk capacitor</text>')
    assert rendered("{{ picture|said_picture }}", picture=picture) == picture


def test_an_english_picture_is_the_same_to_the_letter():
    picture = mark_safe("<text>Fuse &amp; core 1.5 W</text>")
    assert rendered("{{ picture|said_picture }}", "en", picture=picture) == picture


def test_a_formula_keeps_its_symbols_and_has_words_and_decimals_of_the_language():
    formula = "<math><mi>V</mi><mo>=</mo><mn>0.9</mn><mtext> for half wave</mtext></math>"
    assert said_formula(formula) == formula
    with override("de"):
        assert said_formula(formula) == (
            "<math><mi>V</mi><mo>=</mo><mn>0,9</mn>"
            "<mtext>\u00a0bei\u00a0Einweggleichrichtung</mtext></math>")
