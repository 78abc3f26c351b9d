"""Capabilities of several units below each other on one power axis, each with its own claim."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .axes import Axis, grid, tick_labels, upright
from .capability import Capability, capability_drawing
from .glyphs import NEVER
from .ladder import Claimed
from .markup import element, escape, percent, picture
from .scale_table import scale_row, scale_table

ROOM = 16               # percent of the width that the label of a claim needs


@dataclass(frozen=True, slots=True)
class Standing:
    """A unit at one mains condition."""

    name: str                       # markup: letter, name, conditions
    spoken: str                     # the same facts for who cannot see it, in their language
    capability: Capability | None   # None: cannot tell
    claim: Claimed | None
    numbers: str                    # markup


def compared_capability(caption: str, axis: Axis,
                        groups: Iterable[tuple[str, Sequence[Standing]]]) -> str:
    """groups : heading of a mains condition, and the units at it; the axis is everybody's"""
    rows = [row for heading, standings in groups for row in _group(axis, heading, standings)]
    heads = ("Unit", f"{axis.low:g} to {axis.high:g} watts", "Watts (90\u202f% interval)")
    return scale_table("compared", caption, heads, tick_labels(axis), rows)


def _group(axis, heading, standings):
    head = element("th", escape(heading), scope="rowgroup", role="rowheader", colspan=3)
    yield element("tr", head, cls="group", role="row")
    for one in standings:
        drawn = picture(grid(axis) + _drawing(axis, one), one.spoken, translate="no")
        yield scale_row(one.name, drawn, one.numbers)


def _drawing(axis: Axis, one: Standing) -> str:
    found, claim = one.capability, one.claim
    hill = capability_drawing(axis, found, claim.power if claim else None) if found else NEVER
    return hill + (_claim(axis, claim, found.median if found else 0.0) if claim else "")


def _claim(axis: Axis, claim: Claimed, median: float) -> str:
    """The label stands on the side that is away from the capability, if there is room."""
    place = axis(claim.power)
    way = 1 if (claim.power > median and place < 100 - ROOM) or place < ROOM else -1
    return upright("claim", place, "1.1rem") + element(
        "text", escape(claim.label), cls="claim-t", x=percent(place), dx=f"{.3 * way}em",
        y=".95rem", text_anchor="start" if way > 0 else "end")
