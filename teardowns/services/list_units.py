"""Bring the listing in line with what is public now, in the transaction of the change.

A row is what the version that stands says of its unit; a unit that is out of sight keeps its row,
not listed, so that whoever follows the listing hears of it.
"""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Set
from types import MappingProxyType
from typing import Any, NamedTuple

from django.db import transaction
from django.db.models import Q

from teardowns.exchange.listing_facts import listing_facts
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.imaging.limits import LIST_WIDTH
from teardowns.models import (
    BoardFamilyMember,
    HiddenKind,
    HiddenNow,
    ListedUnit,
    Photo,
    Publication,
    Stage,
    Unit,
)

from .index_likeness import index_likeness
from .index_words import index_words
from .listing_clock import hold_clock, raise_clock
from .want_sisters import want_sisters

SLICE = 200
PRINTED = ("title", "maker", "model", "kind", "channel", "published_at")
ASSESSED = ("verdict", "claimed_power", "plausibility", "capability", "capability_low",
            "capability_high", "risk", "flags")
STAGES = Stage.values
WORDED = frozenset(("publication_id", "is_listed"))     # without these a search finds what it found
COLUMNS = tuple(field.attname for field in ListedUnit._meta.concrete_fields
                if not field.primary_key and field.name != "changed")


class Said(NamedTuple):
    """What the listing takes from a version, where it was read already."""

    document: Mapping[str, Any]          # full
    facts: Mapping[str, Any]             # of the assessment that stands beside it now


@transaction.atomic
def list_units(unit_pks: Iterable[int | None],
               said: Mapping[int, Said] | None = None) -> list[int]:
    """The units whose rows had to be changed. None is no unit.

    said : by version, where nothing but the assessments of these units moved
    """
    pks = _ever_public({pk for pk in unit_pks if pk is not None})
    if not pks:
        return []                        # a draft's change does not wait for the clock
    clock = hold_clock()                 # then read: what was committed before is seen
    changed = {row: columns for row, columns in _beside(pks, said or {}) if columns}
    if changed:
        number = raise_clock(clock)
        for row in changed:
            row.changed = number
        ListedUnit.objects.bulk_create([*changed], update_conflicts=True, unique_fields=["unit"],
                                       update_fields=[*_names(COLUMNS), "changed"])
    index_words(row.unit_id for row, columns in changed.items() if not WORDED.isdisjoint(columns))
    if said is None:
        index_likeness(pks)              # looks itself what moved, photos among it
    want_sisters(pks)
    return [row.unit_id for row in changed]


def list_slice(after_pk: int = 0, size: int = SLICE) -> int | None:
    """The units that follow this one; the last, to go on from; None when it was the last of all.
    """
    pks = _slice(after_pk, size)
    list_units(pks)
    return pks[-1] if len(pks) == size else None


def listing_differences(after: int = 0) -> Iterator[tuple[int, list[str]]]:
    """Each unit after that number whose row is not what it should be, with the columns that differ.
    """
    while pks := _slice(after, SLICE):
        for row, columns in _beside(pks):
            if columns:
                yield row.unit_id, columns
        after = pks[-1]


def _slice(after_pk, size):
    return _ever_public(Unit.objects.filter(pk__gt=after_pk).values("pk"), size)


def _ever_public(among, size=None):
    """Units that are or were public, by their numbers."""
    known = Unit.objects.filter(Q(publication__isnull=False) | Q(listing__isnull=False),
                                pk__in=among)
    return list(known.order_by("pk").values_list("pk", flat=True)[:size])


def _beside(pks: list[int],
            said: Mapping[int, Said] = MappingProxyType({})) -> Iterator[
                tuple[ListedUnit, list[str]]]:
    """The row that each unit should have, with the columns in which the stored one differs."""
    stored = ListedUnit.objects.in_bulk(pks)
    wanted = {row.unit_id: row for row in _rows(pks, said)}
    for pk in pks:
        old, row = stored.get(pk), wanted.get(pk)
        if row is not None:
            yield row, _different(old, row) if old else list(COLUMNS)
        elif old is not None:
            columns = ["is_listed"] if old.is_listed else []
            old.is_listed = False
            yield old, columns


def _different(old, row):
    return [name for name in COLUMNS if getattr(old, name) != getattr(row, name)]


def _names(columns):
    return [ListedUnit._meta.get_field(name).name for name in columns]


def _rows(pks: list[int], said: Mapping[int, Said]) -> Iterator[ListedUnit]:
    """The rows of those units that everybody sees."""
    families, photos = _families(pks), _photos_in_sight(pks)
    found = Publication.objects.current().filter(unit__in=pks).select_related("standing").defer(
        "frozen", "words", *(("document", "standing__payload") if said else ()))
    for publication in found:
        pk = publication.unit_id
        yield ListedUnit(unit_id=pk, families=families.get(pk, []),
                         **listing_columns(publication, photos.get(pk, set()),
                                           said.get(publication.pk)))


def listing_columns(publication: Publication, photos: Set[str] = frozenset(),
                    said: Said | None = None) -> dict[str, Any]:
    """What the version itself says.

    photos : keys of those that are to be seen
    """
    document, facts = said or _said(publication)
    shown = (photo for photo in document["photos"] if photo["key"] in photos)
    first = min(shown, key=lambda photo: STAGES.index(photo["stage"]), default={"key": ""})
    return {"publication_id": publication.pk, "is_listed": True, "picture": first["key"],
            **_copied(publication, PRINTED), **_copied(publication.standing, ASSESSED),
            **facts}


def _said(publication: Publication) -> Said:
    document = full(publication.document, unit_schema())
    return Said(document, listing_facts(document, publication.standing.payload))


def _copied(source, names):
    return {name: getattr(source, name) for name in names}


def _families(pks) -> Mapping[int, list[str]]:
    found = defaultdict(list)
    rows = BoardFamilyMember.objects.current().filter(unit__in=pks).order_by("family__slug")
    for pk, slug in rows.values_list("unit", "family__slug"):
        found[pk].append(slug)
    return found


def _photos_in_sight(pks) -> Mapping[int, set[str]]:
    """By unit, the keys of its public photos that lists can show.

    A hiding counts until it was ended, not until its hour has come: the one is a change that the
    listing is told of.
    """
    hidden = HiddenNow.objects.filter(kind=HiddenKind.PHOTO, ended_at=None, unit__in=pks)
    photos = Photo.objects.shown().filter(
        unit__in=pks, published_at__isnull=False, set_aside=False, derivatives__width=LIST_WIDTH,
    ).exclude(pk__in=hidden.values("object_id"))
    found = defaultdict(set)
    for pk, key in photos.order_by().values_list("unit", "key"):
        found[pk].add(key)
    return found
