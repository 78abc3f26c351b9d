"""One unit as one row of a list: every number printed here, once for each version of a unit."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from html import escape
from typing import NamedTuple

from django.db.models import F, OuterRef, Q, Subquery
from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import get_language

from core.templatetags.said import said_picture
from core.words.said import said
from teardowns.engine.risk import BESIDE, ORDER
from teardowns.engine.rule import HAZARDS
from teardowns.figures.strip import strip
from teardowns.imaging.limits import LIST_WIDTH
from teardowns.models import Assessment, Kind, ListedUnit
from teardowns.reading.quantity import print_interval, print_quantity

from .numbers import claimed_watts
from .verdict_words import CHIPS

ASSESSED = ("verdict", "claimed_power", "capability", "capability_low", "capability_high")
COLUMNS = ("pk", "title", "maker", "model", "kind", "published_at", *ASSESSED, "risk",
           "load_held", "load_lost", "load_mains", "hazards", "picture")
UNCLAIMED = mark_safe('<span class="quiet">no claim to judge</span>')
UNGRADED = "no risk level given"
NO_LEVEL = f'<span class="quiet">{UNGRADED}</span>'
RISK_NOTE = (f"Risk: the level of the gravest finding; {BESIDE}. Whether two reviewers agreed on a "
             "serious one, its page says. A unit without a level is not thereby safe.")
KEPT = 5000              # printed rows in memory, some 2 kB each

Parts = tuple[str, str]  # of a row: what a search found goes between them


@dataclass(frozen=True, slots=True)
class UnitRow:
    pk: int
    address: str
    title: str
    origin: str              # maker, model and kind, as far as known
    published: str           # ISO date
    claimed: str             # "claimed 45 W"
    capability: str          # "13.1 to 16.7 W", the 90 % interval
    loads: str               # "held 13 W, did not hold 15 W (230 V)", or ""
    risk: str                # a word of engine.risk.ORDER
    hazards: tuple[str, ...]  # of its findings: "electric shock"
    verdict: SafeString      # chip
    strip: SafeString        # SVG
    picture: str             # address, or ""


def with_newest_assessment(units):
    """The units with the list columns of their newest assessment; unassessed ones stay, empty."""
    newest = Assessment.objects.filter(unit=OuterRef("pk"), confirmed_only=False).values("pk")[:1]
    joined = units.filter(Q(assessments__isnull=True) | Q(assessments__pk=Subquery(newest)))
    return joined.annotate(**{column: F(f"assessments__{column}") for column in ASSESSED})


class _Kept(NamedTuple):
    """Printed rows of one state of the listing, by language and unit."""

    state: object
    rows: dict[tuple[str, int], Parts]


_kept = _Kept(None, {})


def unit_rows(pks: Sequence[int], state: object,
              snippets: Mapping[int, SafeString] | None = None) -> SafeString:
    """The rows of these units that are listed, in this order, as markup: one query, or none.

    state : an object that stands for the listing as it is, and another one after each change
    snippets : what a search found, by unit
    """
    global _kept
    is_useful = _kept.state is state and len(_kept.rows) < KEPT
    _kept = kept = _kept if is_useful else _Kept(state, {})
    language = get_language() or ""
    missing = [pk for pk in pks if (language, pk) not in kept.rows]
    if missing:
        found = ListedUnit.objects.listed().filter(pk__in=missing).values_list(*COLUMNS)
        kept.rows.update({(language, pk): _printed(language, pk, *known, tuple(hazards), picture)
                          for pk, *known, hazards, picture in found})
    there = [pk for pk in pks if (language, pk) in kept.rows]
    return joined_rows([kept.rows[language, pk] for pk in there],
                       [(snippets or {}).get(pk, "") for pk in there])


def joined_rows(rows: Sequence[Parts], snippets: Sequence[str]) -> SafeString:
    """snippets : what goes between the parts of each row: markup, or nothing"""
    return mark_safe("".join(
        f'{before}<p class="snippet">{snippet}</p>{after}' if snippet else before + after
        for (before, after), snippet in zip(rows, snippets, strict=True)))


@lru_cache(KEPT)
def _printed(language, *columns):
    """Of one version of a unit, in the language of the request: most rows outlive a change of the
    listing."""
    return row_markup(_row(*columns))


def _row(pk, title, maker, model, kind, published_at, verdict, claimed_power, capability,
         capability_low, capability_high, risk, load_held, load_lost, load_mains, hazards,
         picture):
    ends = (capability_low, capability_high)
    return UnitRow(
        pk=pk,
        address=reverse("unit_detail", args=[pk]),
        title=title,
        origin=" · ".join(filter(None, (maker, model, said(Kind(kind).label)))),
        published=published_at.date().isoformat(),
        claimed=said("no power claim" if claimed_power is None
                     else f"claimed {claimed_watts(claimed_power)}"),
        capability="unknown" if None in ends else print_interval(*ends, "W"),
        loads=_loads(load_held, load_lost, load_mains),
        risk=ORDER[risk], hazards=tuple(HAZARDS.get(code, code) for code in hazards),
        verdict=said_picture(CHIPS.get(verdict, UNCLAIMED)),
        strip=mark_safe(strip(claimed_power, capability_low, capability, capability_high)),
        picture=reverse("photo_picture", args=[pk, picture, LIST_WIDTH]) if picture else "",
    )


def _loads(held, lost, mains):
    told = [said(f"held {print_quantity(held, 'W')}")] if held is not None else []
    if lost is not None:
        told.append(said(f"did not hold {print_quantity(lost, 'W')}"))
    tested = f" ({print_quantity(mains, 'V')})" if told and mains is not None else ""
    return ", ".join(told) + tested


def _photo(address):
    """Of no alternative text: the title, which is read first, names the unit."""
    if not address:
        return f'<small class="look none">{said("no photo")}</small>'
    return (f'<img class="look" src="{address}" alt="" width="72" height="72" loading="lazy" '
            'decoding="async">')


def row_markup(row: UnitRow) -> Parts:
    """The row as markup.

    No template: 25 of them cost as much as the rest of a page.
    """
    title, day = escape(row.title), f' · <time class="num">{row.published}</time>'
    risk = said(f"risk {row.risk}") if row.risk else said_picture(NO_LEVEL)
    if row.hazards:
        risk += f"<br>{escape(', '.join(map(said, row.hazards)))}"
    loads = f"<br>{row.loads}" if row.loads else ""
    capability = said(f"capability {row.capability}")
    return (
        f'<tr role="row"><th role="rowheader" scope="row">'
        f'<a href="{row.address}">{title}</a>{_photo(row.picture)}'
        f"<small>{escape(row.origin)}{day}</small>",
        f'<a class="to-compare" href="{reverse("compare")}?units={row.pk}" data-unit="{row.pk}" '
        f'data-title="{title}">{said("Compare")}<span class="off"> {title}</span></a></th>'
        f'<td role="cell" class="verdict-cell">{row.verdict}<small>{risk}</small></td>'
        f'<td role="cell" class="plot">{row.strip}</td>'
        f'<td role="cell" class="num">{row.claimed}<br>{capability}{loads}'
        "</td></tr>",
    )
