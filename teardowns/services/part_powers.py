"""What public units with a part claim, were measured to deliver, and are worked out to deliver."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from math import isnan, nan
from typing import Any

from teardowns.exchange.measured_capability import NotMeasured, measured_capability
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.models import Publication

ENDS = ("low", "high")           # of the plate's mains range


@dataclass(frozen=True, slots=True)
class EndPower:
    """What confirmed evidence allows at one end of the mains. [W, V]"""

    voltage: float
    is_assumed: bool             # the plate does not state its mains
    low: float
    median: float
    high: float


@dataclass(frozen=True, slots=True)
class UnitPowers:
    pk: int
    title: str
    claimed: float | None                    # W, the largest claim
    ends: tuple[EndPower, ...]               # low end, high end, as far as they are worked out
    measured: float | None = None            # W, on a load
    measured_mains: float | None = None      # V, None where that test does not state it


def powers_of_units(pks: Iterable[int]) -> list[UnitPowers]:
    """Of public units, by their versions, in no order. Two queries."""
    rows = Publication.objects.current().filter(unit__in=list(pks)).order_by().values(
        "unit", "title", "standing__claimed_power", "standing__payload__capability",
        "standing__payload__mains", "unit__listing__measured_power")
    found = [_powers(row) for row in rows]
    documents = dict(Publication.objects.current().order_by().filter(
        unit__in=[one.pk for one in found if one.measured is not None],
    ).values_list("unit", "document"))
    return [_with_mains(one, documents[one.pk]) if one.pk in documents else one for one in found]


def _powers(row: Mapping[str, Any]) -> UnitPowers:
    mains, capability = row["standing__payload__mains"], row["standing__payload__capability"]
    ends = [EndPower(mains[end]["voltage"], mains[end]["assumed"], *(
        capability[end][name] for name in ("low", "median", "high")))
        for end in ENDS if capability[end] is not None]
    return UnitPowers(row["unit"], row["title"], row["standing__claimed_power"], tuple(ends),
                      row["unit__listing__measured_power"])


def _with_mains(one: UnitPowers, document: Mapping[str, Any]) -> UnitPowers:
    try:
        found = measured_capability(full(document, unit_schema()),
                                    nan if one.claimed is None else one.claimed,
                                    confirmed_only=True)
    except NotMeasured:          # the listing is a transaction behind: it was measured, and how
        return replace(one, measured=None)
    mains = None if isnan(found.mains_voltage) else found.mains_voltage
    return replace(one, measured=found.power, measured_mains=mains)
