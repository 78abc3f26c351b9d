"""What the list of units can be narrowed by: each value with its number of units, as markup.

Written without a template: some hundred values stand on each page, and a template node for each
would take longer than all else.
"""
from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from functools import lru_cache
from html import escape

from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import get_language

from core.words.said import said

from .cell_text import cell_text
from .list_words import grouped

FIRST = ("verdict", "claimed", "risk")       # open at once; the others open by themselves once used
NOTES = {                # of facets whose name does not say how they are known
    "measured": "By a load test of the whole unit: the middle between the highest load that it "
                "held and a little higher one that was too much. Without both, or with ballast "
                "found, a unit counts as not measured."}
SHOWN = 9                # values of a facet that has many of them, the most frequent ones
MOST = 60                # values behind "more"
KEPT = 600               # facets in memory, some 2 kB each: most pages show the same numbers

Value = tuple[str, str, int, bool]           # code, label, units, chosen


def facet_lists(labels: Mapping[str, str], values: Mapping[str, Sequence[tuple[str, str]]],
                counts: Mapping[str, Mapping[str, int]],
                chosen: Mapping[str, Collection[str]]) -> SafeString:
    """labels : by facet, in order; values : (code, label) of each, in order; counts : units by code

    Chosen values stand there whatever they count; those that no unit has wait in a fold.
    """
    return mark_safe("".join(
        _facet(get_language(), facet, label,
               _valued(values[facet], counts.get(facet, {}), chosen.get(facet, ())))
        for facet, label in labels.items()))


def _valued(values, counts, chosen) -> tuple[Value, ...]:
    return tuple([(code, label, counts.get(code, 0), code in chosen) for code, label in values])


@lru_cache(KEPT)
def _facet(language: str | None, facet: str, label: str, values: tuple[Value, ...]) -> str:
    label, picked = escape(said(label)), sum(value[3] for value in values)
    there = [value for value in values if value[2] or value[3]]
    shown, more = _split(there)
    rest = more + [value for value in values if not (value[2] or value[3])]
    is_open = " open" if picked or facet in FIRST else ""
    note = f" <small>{said(f'{picked} chosen')}</small>" if picked else ""
    fold = _fold(facet, rest, len(more)) if rest else ""
    meaning = f'<p class="note">{said(NOTES[facet])}</p>' if facet in NOTES else ""
    none = "" if there else f'<p class="note">{said("Not known of any of these units.")}</p>'
    return (f'<details class="facet"{is_open}><summary>{label}{note}</summary>'
            f'<div role="group" aria-label="{label}">{meaning}{none}{_values(facet, shown)}{fold}'
            "</div></details>")


def _split(values: Sequence[Value]) -> tuple[list[Value], list[Value]]:
    """All of a few; of many the chosen and the most frequent ones, in their order, and the rest."""
    if len(values) <= SHOWN + 2:
        return list(values), []
    ranked = sorted(values, key=lambda value: (not value[3], -value[2]))
    kept = {value[0] for value in ranked if value[3]} | {value[0] for value in ranked[:SHOWN]}
    return ([value for value in values if value[0] in kept],
            [value for value in ranked if value[0] not in kept])


def _fold(facet: str, values: Sequence[Value], counted: int) -> str:
    words = said(f"{len(values)} more" if counted else f"{len(values)} with no unit")
    listed = _values(facet, values[:MOST])
    return f'<details class="fold"><summary>{words}</summary>{listed}</details>'


def _values(facet: str, values: Iterable[Value]) -> str:
    return "".join([
        f'<label class="value{"" if count else " none"}"><input type="checkbox" name="{facet}" '
        f'value="{escape(code)}"{" checked" if is_chosen else ""}><span>{cell_text(label)}</span>'
        f"<b>{grouped(count)}</b></label>"
        for code, label, count, is_chosen in values])
