"""All texts of the site, and the catalogue of a language held against them."""
from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import polib
from django.conf import settings

from .composed import COMPOSED
from .gather_python import paragraphs_of_docstring, strings_of_source, texts_of_source
from .gather_scripts import texts_of_script
from .gather_templates import texts_of_template

# Spoken to programs and to operators, or drawn for the demo: English, whoever reads it.
UNSHOWN = ("teardowns/api", "teardowns/bulk", "teardowns/drawing", "teardowns/migrations",
           "core/migrations", "teardowns/search_engines", "teardowns/logs/headings.py",
           "teardowns/typesetting/fonts.py", "core/accounts/migrations", "core/audit/migrations",
           "core/settings.py", "core/checks.py", "core/words", "core/doctor", "core/buckets.py",
           "core/backup", "core/operation", "core/audit/triggers.py",
           "teardowns/exchange/schema.py", "teardowns/doctor", "core/rotate_key.py")
# A rule is explained to its readers by the docstring of its file.
EXPLAINED = "teardowns/engine/rules/"


@dataclass(frozen=True)
class Step:
    """How a catalogue and the site differ."""

    missing: list[str]          # texts without a translation
    gone: list[str]             # translations of texts that the site no longer has


def all_texts() -> dict[str, str]:
    """Every text and the file that it was first found in, in the order of the files."""
    texts: dict[str, str] = {}
    for file, found in _files():
        for text in found:
            texts.setdefault(text, file)
    return texts


def _files() -> Iterator[tuple[str, list[str]]]:
    for path in _sources("templates", "*.*"):
        name = path.removeprefix("templates/")
        yield path, list(texts_of_template(name))
    for room in ("core", "teardowns"):
        for path in _sources(room, "*.py"):
            yield path, [text for text, _ in texts_of_source(_here(path))]
            if path.startswith(EXPLAINED) and not path.endswith("/__init__.py"):
                yield path, list(paragraphs_of_docstring(_here(path)))
    for path in _sources("static/js", "*.js"):
        yield path, list(texts_of_script(_here(path)))
    yield "core/words/composed.py", list(COMPOSED)


def _sources(folder, names):
    for path in sorted(_here(folder).rglob(names)):
        name = path.relative_to(settings.BASE_DIR).as_posix()
        if not name.startswith(UNSHOWN) and "/management/" not in name:
            yield name


def _here(path: str) -> Path:
    return Path(settings.BASE_DIR) / path


def read(file: Path) -> polib.POFile:
    return polib.pofile(str(file), wrapwidth=100)


def held_against(catalogue: polib.POFile, texts: dict[str, str]) -> Step:
    translated = {entry.msgid for entry in catalogue if entry.msgstr}
    by_hand = _strings() if translated - texts.keys() else set()
    return Step([text for text in texts if text not in translated],
                [text for text in translated if text not in texts and text not in by_hand])


def _strings():
    """Strings of the code that are a text only somewhere: "supported", "X2"."""
    return {text for room in ("core", "teardowns") for path in _here(room).rglob("*.py")
            for text in strings_of_source(path)}


def renewed(catalogue: polib.POFile, texts: dict[str, str]) -> polib.POFile:
    """The catalogue with every text of the site in the order of its files, and nothing else."""
    known = {entry.msgid: entry.msgstr for entry in catalogue if entry.msgstr}
    gone = set(held_against(catalogue, texts).gone)
    new = polib.POFile(wrapwidth=100)
    new.metadata = catalogue.metadata
    for text, file in texts.items():
        new.append(polib.POEntry(msgid=text, msgstr=known.get(text, ""), occurrences=[(file, "")]))
    for text in sorted(known.keys() - texts.keys() - gone):
        new.append(polib.POEntry(msgid=text, msgstr=known[text], comment="by hand"))
    return new
