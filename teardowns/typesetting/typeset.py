"""Blocks → the bytes of a PDF, by a process of its own."""
from __future__ import annotations

import json
import re
import subprocess
import sys
import tempfile
import unicodedata
from collections.abc import Callable, Mapping
from pathlib import Path
from time import monotonic
from typing import Any

from .fonts import FAMILIES, font_folders

SECONDS = 100                    # for one document, all tries together
TRIES = 40                       # as often a text may turn out to have no letters here
SINGLY = 8                       # after so many tries a script is given up as a whole
KEPT = frozenset({"meta", "alt", "file", "k", "b"})      # is not set, or is no text
# How the typesetter says that a text has no letters, or a character that must not be in a PDF/A.
MISSING = re.compile(r'text `"?(.*?)"?` could not be displayed|contains the codepoint `"?(.*?)"?`')
NOTE = ("No letters for part of a text were at hand where this document was made. The code points "
        "of these characters (Unicode) stand in square brackets in their place: {}.")
PLAIN = re.compile(
    r"[\x20-\x7e\u00a0-\u017f\u0370-\u03ff\u0400-\u045f\u2009\u200a\u2010-\u2026\u202f\n]")
UNPRINTED = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufeff\ufff9-\ufffc\ufffe\uffff"
    "\U000e0000-\U000e0fff]")
CLINGING = ("Cf", "Mn", "Me")
ROOT = Path(__file__).resolve().parents[2]


class NotSet(Exception):
    """The document could not be made; the message says why, for the log."""


def typeset(document: Mapping[str, Any], pictures: Mapping[str, Callable[[], bytes]]) -> bytes:
    """PDF/A-2a and PDF/UA-1. Same document, same pictures and same fonts: same bytes.

    document : meta, running and blocks, see `report.typ`; missing, in its language, as NOTE
    pictures : by file name, what reads its bytes
    """
    with tempfile.TemporaryDirectory(prefix="typeset-") as folder:
        for name, read in pictures.items():
            (Path(folder) / name).write_bytes(read())
        return _set(folder, cleaned(dict(document)))


def cleaned(node: Any) -> Any:
    """Without control characters and code points that are none: they show nothing, and neither
    XML 1.0 nor a PDF for keeping may hold them."""
    if isinstance(node, str):
        return UNPRINTED.sub("", node)
    if isinstance(node, list):
        return [cleaned(one) for one in node]
    if isinstance(node, dict):
        return {key: cleaned(one) for key, one in node.items()}
    return node


def _set(folder, document):
    """Set it; where a character has no letter, put its code point there and try again."""
    unknown: set[str] = set()
    until = monotonic() + SECONDS
    for tries in range(TRIES):
        written = with_code_points(document, unknown)
        (Path(folder) / "data.json").write_text(
            json.dumps(written | {"fonts": list(FAMILIES)}), "utf-8")
        made, problem = _run(folder, until - monotonic())
        if made:
            return made
        found = (_without_letters(problem) or _clinging(written)) - unknown
        if not found:
            raise NotSet(problem)
        unknown |= found if tries < SINGLY else _of_their_scripts(found, written)
    raise NotSet("Too many texts without letters.")


def _clinging(document):
    """Characters that join others or lie upon them: of such a cluster only the first is named."""
    return {each for each in json.dumps(document, ensure_ascii=False)
            if unicodedata.category(each) in CLINGING}


def _of_their_scripts(found, document):
    """All characters of the document that are of the scripts of these."""
    scripts = {_script(each) for each in found}
    text = set(json.dumps(document, ensure_ascii=False))
    return found | {each for each in text if not PLAIN.match(each) and _script(each) in scripts}


def _script(character):
    """Near enough: `CJK`, `HANGUL`, `THAI`, or "" for what has no name."""
    return unicodedata.name(character, "").partition(" ")[0]


def _run(folder, seconds):
    command = [sys.executable, "-m", "teardowns.typesetting.child", folder, *font_folders()]
    try:
        done = subprocess.run(command, capture_output=True, timeout=max(seconds, 0.1), cwd=ROOT,
                              check=False)
    except subprocess.TimeoutExpired as error:
        raise NotSet(f"It took longer than {SECONDS} s.") from error
    if done.returncode == 0:
        return done.stdout, ""
    return b"", done.stderr.decode("utf-8", "replace")[-4000:]


def _without_letters(problem):
    """The characters that the typesetter names; of a cluster all but the plain ones."""
    try:
        said = json.loads(problem)["message"]
    except (ValueError, KeyError):
        return set()
    found = "".join(one or other for one, other in MISSING.findall(said))
    found = re.sub(r"\\u\{([0-9a-f]+)\}", lambda match: chr(int(match[1], 16)), found)
    return {each for each in found if not PLAIN.match(each)} or {
        each for each in found if each > "~"}


def with_code_points(document: dict[str, Any], unknown: set[str]) -> dict[str, Any]:
    """The document with each unknown character as `[U+5B57]`, and a note at its head."""
    if not unknown:
        return document
    pattern = re.compile("[" + "".join(map(re.escape, sorted(unknown))) + "]+")
    changed = _replaced(document, pattern)
    points = ", ".join(f"U+{ord(each):04X}" for each in sorted(unknown))
    told = document.get("missing", NOTE).format(points)
    note = {"b": "p", "style": "notice", "runs": [{"t": told}]}
    return changed | {"blocks": [changed["blocks"][0], note, *changed["blocks"][1:]]}


def _replaced(node, pattern):
    if isinstance(node, str):
        return pattern.sub(lambda found: _points(found[0]), node)
    if isinstance(node, list):
        return [_replaced(one, pattern) for one in node]
    if isinstance(node, dict):
        return {key: one if key in KEPT else _replaced(one, pattern)
                for key, one in node.items()}
    return node


def _points(text):
    return "[" + " ".join(f"U+{ord(each):04X}" for each in text) + "]"
