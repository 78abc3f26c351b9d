"""Choosing what to compare: what is chosen, what may be added, and what was wrong with the address.
"""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe

from teardowns.figures.marks import verdict_chip

from .compare_columns import origin
from .links import Links
from .numbers import claimed_watts, number, span, with_unit


@dataclass(frozen=True, slots=True)
class Problem:
    text: str
    href: str = ""          # of what explains it
    words: str = ""         # of that link


@dataclass(frozen=True, slots=True)
class Picked:
    """A unit of the comparison as it stands."""

    key: str                # as the address names it
    title: str
    remark: str             # maker, model, version
    address: str            # its page
    without: str            # the comparison without it


@dataclass(frozen=True, slots=True)
class Offered:
    pk: int
    title: str
    origin: str
    chip: SafeString | str
    power: str
    address: str
    with_it: str            # the comparison with it


def compare_address(units: Iterable[object], like: str = "") -> str:
    """units : whatever prints as the address names a unit, `3` or `8v2`; like : what to offer"""
    asked = {"units": ",".join(map(str, units))} | ({"like": like} if like else {})
    return f"{reverse('compare')}?{urlencode(asked, safe=',')}"


def problems_of(said: Iterable[str], withdrawn: Iterable[int],
                missing: Iterable[tuple[int, str]],
                again: Iterable[tuple[int, str]]) -> list[Problem]:
    """The last three : of services.compared_units"""
    return [
        *map(Problem, said),
        *(Problem(f"Unit {pk} was withdrawn, so it is not compared. The rest is kept.",
                  reverse("unit_detail", args=[pk]), "When and why it was withdrawn")
          for pk in withdrawn),
        *(Problem(_missing(pk, version)) for pk, version in missing),
        *(Problem(f"Unit {pk} was asked for twice under two names, with and without its version; "
                  "it is shown once.") for pk, _ in again)]


def _missing(pk, version):
    if version:
        return (f"Unit {pk} has no public version {version}: name it without “v{version}” for the "
                "version that stands. The rest is kept.")
    return (f"There is no public unit {pk}: its number stands in the address of a unit’s page. "
            "The rest is kept.")


def picked(units: Sequence[Any], keys: Sequence[object]) -> list[Picked]:
    """units : of services.compared_units; keys : how the address names each of them"""
    return [Picked(str(own), one.title, origin(one), Links(one.unit.pk, one.version).unit,
                   compare_address([key for key in keys if key != own]))
            for one, own in zip(units, keys, strict=True)]


def offered(rows: Iterable[Any], keys: Sequence[object], q: str = "") -> list[Offered]:
    """rows : of the listing; q : what found them, kept for whoever goes on choosing"""
    return [Offered(
        row.pk, row.title, " ".join(filter(None, (row.maker, row.model))),
        mark_safe(verdict_chip(row.verdict)) if row.verdict else "", _power(row),
        reverse("unit_detail", args=[row.pk]), compare_address([*keys, row.pk], q)) for row in rows]


def _power(row) -> str:
    claimed = (f"claims {claimed_watts(row.claimed_power)}" if row.claimed_power is not None
               else "no power claim")
    if row.capability is None:
        return f"{claimed}; capability: cannot tell"
    interval = span(row.capability_low, row.capability_high)
    return f"{claimed}; capability {with_unit(number(row.capability), 'W')} ({interval})"
