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

MOST = 100              # units that are named
ROWS = 4 * MOST         # of components that are read for them: a unit seldom has a part four times
OF_VERSION = ("title", "maker", "model", "kind", "published_at", "standing__verdict",
              "standing__claimed_power", "standing__capability_low", "standing__capability_high")
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
    """Two queries; three of a part so common that not all its units are named."""
    found: dict[int, UnitWithPart] = {}
    path = "unit__publication__"
    of_version = {f"of_{name}": F(path + name) for name in OF_VERSION}
    live = list(_live([part.pk]).order_by(F(f"{path}published_at").desc(nulls_last=True), "pk")
                .values("unit", *OF_ROW, **of_version)[:ROWS])
    for row in live:
        version = {name: row[f"of_{name}"] for name in OF_VERSION}
        found.setdefault(row["unit"], UnitWithPart(row["unit"], version)).rows.append(
            {name: row[name] for name in OF_ROW})
    corrected = set()
    for unit, row, version in _being_corrected([part.pk], OF_VERSION):
        corrected.add(unit)
        found.setdefault(unit, UnitWithPart(unit, version)).rows.append(
            {name: row[name] for name in OF_ROW})
    number = len(found)
    if len(live) == ROWS:
        number = len(corrected) + _live([part.pk]).aggregate(
            n=Count("unit", distinct=True))["n"]
    return UnitsWithPart(number, sorted(found.values(), key=_newest_first)[:MOST])


def numbers_of_units(parts: Iterable[Part]) -> dict[int, int]:
    """By part, how many published units contain it. Two queries for a page of parts."""
    pks = [part.pk for part in parts]
    counted = _live(pks).order_by().values("part").annotate(n=Count("unit", distinct=True))
    numbers = dict.fromkeys(pks, 0) | {row["part"]: row["n"] for row in counted}
    for part in [part for part, _ in {(row["part"], unit)
                                      for unit, row, _ in _being_corrected(pks)}]:
        numbers[part] += 1
    return numbers


def _newest_first(unit):
    at = unit.version["published_at"]
    return (-at.timestamp() if at else 0.0, -unit.pk)


def _open_correction():
    return Correction.objects.filter(unit=OuterRef("unit"), closed_at=None)


def _live(parts):
    return Component.objects.filter(
        ~Exists(_open_correction()), part__in=parts, state=State.RECORDED,
        unit__in=Unit.objects.published(),
    ).exclude(review_state=ReviewState.DISPUTED)


def _being_corrected(parts, columns=()):
    """Unit, frozen row and columns of each version that has one of the parts, of units that are
    being corrected; only those whose history knows one of the parts are read."""
    known = Component.history.filter(part_id__in=parts, unit_id=OuterRef("unit"))
    versions = Publication.objects.current().filter(Exists(known), Exists(_open_correction()))
    for version in versions.values("unit", "frozen__component", *columns):
        for row in version["frozen__component"] or ():
            fields = row["fields"]
            if (fields["part"] in parts and fields["state"] == State.RECORDED
                    and fields["review_state"] != ReviewState.DISPUTED):
                yield version["unit"], fields, {name: version[name] for name in columns}
