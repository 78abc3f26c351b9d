"""Which published units contain a part, as their public versions have it.

A unit without an open correction has the same rows as its version. With one, its rows are being
written on, so its version is asked.
"""
from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from django.db.models import Count, Exists, F, OuterRef

from teardowns.models import Component, Correction, Part, Publication, ReviewState, State, Unit

from .listing_clock import Mark, current_mark

MOST = 100              # units that are named
ROWS = 4 * MOST         # of components that are read for them: a unit seldom has a part four times
# Of a version by the name that pages know it under: the column of the listing, whose rows are
# small. A publication's own row holds its document, and is read a page of the disk at a time.
OF_VERSION = {"title": "title", "maker": "maker", "model": "model", "kind": "kind",
              "published_at": "published_at", "standing__verdict": "verdict",
              "standing__claimed_power": "claimed_power",
              "standing__capability_low": "capability_low",
              "standing__capability_high": "capability_high"}
LISTING = "unit__listing__"
_kept: dict[Mark, dict[int, int]] = {}       # of the newest state of the listing
OF_ROW = ("key", "role", "designator", "count")


@dataclass(slots=True)
class UnitWithPart:
    """A published unit, columns of its version, and the rows of its board that are the part."""

    pk: int
    version: dict[str, Any]
    rows: list[dict[str, Any]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class UnitsWithPart:
    number: int                     # of all
    units: list[UnitWithPart]       # the newest


def units_with_part(part: Part) -> UnitsWithPart:
    """Two queries; some more of a part so common that not all its units are named."""
    found: dict[int, UnitWithPart] = {}
    of_version = {f"of_{name}": F(LISTING + column) for name, column in OF_VERSION.items()}
    live = list(_live([part.pk]).order_by(F(f"{LISTING}published_at").desc(nulls_last=True), "pk")
                .values("unit", *OF_ROW, **of_version)[:ROWS])
    for row in live:
        version = {name: row[f"of_{name}"] for name in OF_VERSION}
        found.setdefault(row["unit"], UnitWithPart(row["unit"], version)).rows.append(
            {name: row[name] for name in OF_ROW})
    for unit, row, version in _being_corrected([part.pk], OF_VERSION.items()):
        found.setdefault(unit, UnitWithPart(unit, version)).rows.append(
            {name: row[name] for name in OF_ROW})
    number = numbers_of_units([part])[part.pk] if len(live) == ROWS else len(found)
    return UnitsWithPart(number, sorted(found.values(), key=_newest_first)[:MOST])


def numbers_of_units(parts: Iterable[Part]) -> dict[int, int]:
    """By part, how many published units contain it. Three queries for a page of parts, of which
    one remains while nothing is published, withdrawn or hidden."""
    pks, mark = [part.pk for part in parts], current_mark()
    known = _kept.get(mark, {})
    numbers = known | _counted([pk for pk in pks if pk not in known])
    if not mark.is_beginning:
        _kept.clear()
        _kept[mark] = numbers
    return {pk: numbers[pk] for pk in pks}


def _counted(pks: list[int]) -> dict[int, int]:
    if not pks:
        return {}
    counted = _live(pks).order_by().values("part").annotate(n=Count("unit", distinct=True))
    numbers = dict.fromkeys(pks, 0) | {row["part"]: row["n"] for row in counted}
    for part, _ in {(row["part"], unit) for unit, row, _ in _being_corrected(pks)}:
        numbers[part] += 1
    return numbers


def _newest_first(unit):
    at = unit.version["published_at"]
    return (-at.timestamp() if at else 0.0, -unit.pk)


def _live(parts):
    """Asked of each row by its unit: a list of all units that are public would be read first."""
    unit = OuterRef("unit")
    return Component.objects.filter(
        ~Exists(Correction.objects.filter(unit=unit, closed_at=None)),
        Exists(Unit.objects.published().filter(pk=unit)), part__in=parts, state=State.RECORDED,
    ).exclude(review_state=ReviewState.DISPUTED)


def _being_corrected(parts, columns=()):
    """Unit, frozen row and columns of each version that has one of the parts, of units that are
    being corrected; only those whose history knows one of the parts are read."""
    known = Component.history.filter(part_id__in=parts, unit_id=OuterRef("unit"))
    corrected = Correction.objects.filter(closed_at=None).values("unit")
    versions = Publication.objects.current().filter(Exists(known), current_for__in=corrected)
    paths = {name: LISTING + column for name, column in columns}
    for version in versions.order_by().values("unit", "frozen__component", *paths.values()):
        for row in version["frozen__component"] or ():
            fields = row["fields"]
            if (fields["part"] in parts and fields["state"] == State.RECORDED
                    and fields["review_state"] != ReviewState.DISPUTED):
                yield version["unit"], fields, {name: version[path]
                                                for name, path in paths.items()}
