"""The evidence ladder: every line of evidence on one power axis, the claim through all of them."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .axes import Axis, grid, log_axis, tick_labels, upright
from .capability import Capability, capability_drawing
from .glyphs import GLYPHS, NEVER
from .marks import kind_mark
from .markup import element, escape, percent, picture
from .scale_table import linked, scale_row, scale_table

HEADS = ("Line of evidence", "Position on the power axis", "Watts (90\u202f% interval)")


@dataclass(frozen=True, slots=True)
class Rung:
    kind: str               # limit, practice, passed, failed
    title: str
    detail: str             # the conditions, in a few words
    value: float            # W, as low and high
    low: float
    high: float
    value_text: str         # "14.7" or "at least 13.0"
    interval_text: str      # "11.0 to 19.7"
    href: str = ""          # to its working


@dataclass(frozen=True, slots=True)
class Claimed:
    power: float            # W
    label: str              # "claimed 45 W"


def ladder_axis(
    rungs: Sequence[Rung], claims: Sequence[float], capabilities: Sequence[Capability]
) -> Axis:
    """An axis that holds everything drawn on it; two ladders of one unit share it."""
    return log_axis(
        [edge for rung in rungs for edge in (rung.low, rung.high)]
        + [edge for capability in capabilities for edge in (capability.low, capability.high)]
        + list(claims)
    )


def evidence_ladder(
    caption: str, axis: Axis, rungs: Sequence[Rung], claim: Claimed | None,
    capability: Capability | None, capability_cells: tuple[str, str],
) -> str:
    """The ladder at one mains condition, the lowest rung first.

    capability_cells : name and numbers of the foot (markup)
    """
    through = upright("claim", axis(claim.power)) if claim else ""
    back = grid(axis) + through
    rows = [_rung_row(axis, back, rung) for rung in sorted(rungs, key=lambda rung: rung.value)]
    drawing = (
        capability_drawing(axis, capability, claim.power if claim else None)
        if capability else NEVER
    )
    foot = scale_row(capability_cells[0], picture(back + drawing), capability_cells[1])
    return scale_table("ladder", caption, HEADS, _scale(axis, claim), rows, [foot])


def _rung_row(axis: Axis, back: str, rung: Rung) -> str:
    drawing = GLYPHS[rung.kind](axis, rung.value, rung.low, rung.high)
    name = escape(rung.title) + element("small", escape(rung.detail))
    numbers = linked(rung.value_text, rung.href) + element("small", escape(rung.interval_text))
    return scale_row(kind_mark(rung.kind, name), picture(back + drawing, _spoken(rung)), numbers)


def _spoken(rung: Rung) -> str:
    return f"{rung.kind}: {rung.value_text} W, 90 % interval {rung.interval_text} W"


def _scale(axis: Axis, claim: Claimed | None) -> str:
    if claim is None:
        return tick_labels(axis)
    place = axis(claim.power)
    anchor = "start" if place < 16 else "end" if place > 84 else "middle"
    return (
        tick_labels(axis, [claim.power])
        + upright("claim", place, "1.05rem")
        + element("text", escape(claim.label), cls="claim-t", x=percent(place), y=".8rem",
                  text_anchor=anchor)
    )
