"""Find public units, parts and families by words, beginnings, pieces of markings, misread ones."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.db import connection
from django.utils.html import escape
from django.utils.safestring import SafeString, mark_safe

from teardowns.models import Findable, SearchText
from teardowns.models.search_texts import KINDS, of_text_key
from teardowns.search_engines import by_group, ids, inside
from teardowns.searching.marking_hits import excerpt
from teardowns.searching.question import as_phrase, read_question
from teardowns.searching.tiers import (
    apart_tiers,
    misread_tiers,
    other_tiers,
    pieces_inside,
    unit_tiers,
)

LIMIT = 2000
FEW = 200                   # as typed; beyond, nothing is taken for misread or a piece of a marking
MOST_OTHERS = 6             # parts, and families, that are named beside the units


@dataclass(frozen=True, slots=True)
class Hits:
    """Numbers of what was found, best first."""

    units: list[int]
    parts: list[int]
    families: list[int]
    is_cut: bool = False        # there are more units than were asked for
    remark: str = ""            # how the text was read, where that is not what it says

    @property
    def total(self) -> int:
        return len(self.units)


def search(text: str, *, limit: int = LIMIT) -> Hits:
    """What has every word and every quoted phrase of a text; nothing where it has no word.

    One query, and up to four where few have it as typed. Whatever is typed is letters to look
    for, never a command.
    """
    question = read_question(text)
    if not question:
        return Hits([], [], [], remark=question.remark)
    keys, others = _as_typed(text, limit + 1)
    if len(keys) < min(FEW, limit):
        keys = _misread_too(keys, text, limit + 1)
    is_cut = len(keys) > limit
    if question.phrases:
        keys, others = _with_phrases(keys, question.phrases), _with_phrases(
            others, question.phrases)
    named = [of_text_key(key) for key in others]
    parts, families = ([pk for kind, pk in named if kind == wanted][:MOST_OTHERS]
                       for wanted in (Findable.PART, Findable.FAMILY))
    return Hits([key // KINDS for key in keys[:limit]], parts, families,
                is_cut, question.remark)


def snippets(pks: Sequence[int], text: str) -> dict[int, SafeString]:
    """By unit the printed lines that have what was asked for, marked; none for a hit in the title.

    One query.
    """
    question = read_question(text)
    rows = SearchText.objects.of(Findable.UNIT, pks).values_list("pk", "body") if question else ()
    found = {key // KINDS: excerpt(body, question) for key, body in rows}
    return {pk: mark_safe(" · ".join(map(_line, lines))) for pk, lines in found.items() if lines}


def _line(pieces):
    return "".join(f"<mark>{escape(letters)}</mark>" if asked else escape(letters)
                   for letters, asked in pieces)


def _as_typed(text, limit):
    """Keys of units, and of parts and families."""
    others, units = by_group(connection, [other_tiers(text), unit_tiers(text)], limit)
    return units, others


def _misread_too(keys, text, limit):
    """Then those where letters were misread, and those with a piece of a marking; where there is
    none, those that have the letters at any rate."""
    likely, unlikely = misread_tiers(text)
    keys = keys + ids(connection, [likely], limit)
    for pieces, besides in pieces_inside(text):
        keys += inside(connection, pieces, besides, Findable.UNIT, limit)
    if not keys:
        keys = ids(connection, [unlikely, *apart_tiers(text)], limit)
    return list(dict.fromkeys(keys))[:limit]


def _with_phrases(keys, phrases):
    """Those of the rows whose words stand as quoted, one after the other."""
    bodies = SearchText.objects.only("title", "body").in_bulk(keys)
    return [key for key in keys if key in bodies and _has_phrases(bodies[key], phrases)]


def _has_phrases(row, phrases):
    words = f" {as_phrase(row.title)} \n {as_phrase(row.body)} "
    return all(f" {phrase} " in words for phrase in phrases)
