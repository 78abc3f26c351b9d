"""The German of the site as a whole: nothing is left out, nothing is left over, all files agree."""
import json
import re
from functools import cache
from pathlib import Path

import pytest
from django.conf import settings

from core.words.catalogue_file import read_translations
from core.words.gather import all_texts, held_against, read
from core.words.gather_scripts import texts_of_script
from core.words.gather_templates import untranslated
from core.words.patterns import PLACE
from core.words.said import mo_file, po_file

LANGUAGES = [code for code, _ in settings.LANGUAGES if code != "en"]
TEMPLATES = Path(settings.BASE_DIR) / "templates"
SCRIPTS = Path(settings.BASE_DIR) / "static/js"
OLD_PLACE = re.compile(r"%\((\w+)\)s|%%")
# Words that are the same in each language: names, units, signs of a form.
SAME = re.compile(r"Underplate|Deutsch|English|UTC|JSON|CSV|PDF|BibTeX|RIS|sha256|[^\w]|\d|_")


@cache
def catalogue(code):
    return read(po_file(code))


@cache
def texts():
    return all_texts()


@pytest.mark.parametrize("code", LANGUAGES)
def test_every_text_of_the_site_is_translated(code):
    assert held_against(catalogue(code), texts()).missing == []


@pytest.mark.parametrize("code", LANGUAGES)
def test_no_translation_outlives_its_text(code):
    assert held_against(catalogue(code), texts()).gone == []


@pytest.mark.parametrize("code", LANGUAGES)
def test_a_translation_has_no_place_that_its_text_has_not(code):
    wrong = [entry.msgid for entry in catalogue(code) if not places(entry.msgstr)
             <= places(entry.msgid)]
    assert wrong == []


def places(text):
    return {name for name, _ in PLACE.findall(text)}


@pytest.mark.parametrize("code", LANGUAGES)
def test_a_translation_has_every_place_of_a_template_s_text(code):
    """Python's % raises where one is missing that it has, and prints nothing where it has none."""
    wrong = [entry.msgid for entry in catalogue(code) if entry.msgstr and
             sorted(OLD_PLACE.findall(entry.msgid)) != sorted(OLD_PLACE.findall(entry.msgstr))]
    assert wrong == []


@pytest.mark.parametrize("code", LANGUAGES)
def test_what_the_site_reads_is_what_was_written(code):
    """`manage.py gather_words` makes the .mo of the .po."""
    assert read_translations(mo_file(code)) == {
        entry.msgid: entry.msgstr for entry in catalogue(code) if entry.msgstr}


@pytest.mark.parametrize("code", LANGUAGES)
def test_scripts_have_the_same_words(code):
    """`manage.py gather_words` makes the module of the .po."""
    module = (SCRIPTS / "words" / f"{code}.js").read_text()
    known = {entry.msgid: entry.msgstr for entry in catalogue(code)}
    said = {text for path in SCRIPTS.rglob("*.js") for text in texts_of_script(path)}
    assert json.loads(module[module.index("{"):].rstrip().rstrip(";")) == {
        text: known[text] for text in said if known.get(text)}


@pytest.mark.parametrize("path", sorted(TEMPLATES.rglob("*.html")),
                         ids=lambda path: path.relative_to(TEMPLATES).as_posix())
def test_a_template_leaves_no_word_in_english(path):
    assert [text for text in untranslated(path) if SAME.sub("", text)] == []
