"""Ladders of several units in one: a row for each line of evidence, a lane in it for each unit."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .axes import Axis, grid, tick_labels, upright
from .glyphs import GLYPHS, NEVER
from .marks import kind_mark
from .markup import element, escape, percent, picture
from .scale_table import linked, scale_row, scale_table

HEADS = ("Line of evidence", "Position on the power axis, a lane a unit",
         "Watts (90\u202f% interval)")


@dataclass(frozen=True, slots=True)
class Lane:
    """What one line of evidence says of one unit."""

    letter: str
    claim: float | None                     # W, of this unit
    words: str                              # "14.7", "at least 13.0", or why there is no value
    value: float | None = None              # W, as low and high; None: no value
    low: float = 0.0
    high: float = 0.0
    interval: str = ""                      # "11.0 to 19.7"
    href: str = ""                          # to its working


@dataclass(frozen=True, slots=True)
class Line:
    kind: str                               # limit, practice, passed, failed
    title: str
    lanes: Sequence[Lane]                   # one a unit, in the order of the page
    spoken: str = ""                        # the same for who cannot see it, in their language


def compared_lines(caption: str, axis: Axis, lines: Iterable[Line], units: int) -> str:
    """units : how many lanes a row has, which sets its height"""
    rows = [_row(axis, line) for line in lines]
    return scale_table(f"lanes lanes-{units}", caption, HEADS, tick_labels(axis), rows)


def _row(axis: Axis, line: Line) -> str:
    share = 100 / len(line.lanes)
    lanes = "".join(_lane(axis, line.kind, lane, i * share, share)
                    for i, lane in enumerate(line.lanes))
    spoken = line.spoken or f"{line.kind}: " + "; ".join(
        f"{lane.letter} {written_numbers(lane)}" for lane in line.lanes)
    return scale_row(
        kind_mark(line.kind, escape(line.title)),
        picture(grid(axis) + lanes, spoken, translate="no" if line.spoken else None),
        element("ul", *(element("li", _written(lane)) for lane in line.lanes), cls="lane-values"))


def _lane(axis, kind, lane, top, share):
    """Glyphs are made for a row's height: here the row is a lane."""
    claim = upright("claim", axis(lane.claim), "12%", "88%") if lane.claim else ""
    mark = (NEVER if lane.value is None
            else GLYPHS[kind](axis, lane.value, lane.low, lane.high))
    name = element("text", lane.letter, cls="lane-letter", x=-4, y="50%", dy=".35em",
                   text_anchor="end")
    return element("svg", claim, mark, name, y=percent(top), height=percent(share))


def _written(lane: Lane) -> str:
    return (element("b", lane.letter) + " " + linked(lane.words, lane.href)
            + (" " + element("small", escape(lane.interval)) if lane.interval else ""))


def written_numbers(lane: Lane) -> str:
    return f"{lane.words} W, 90 % interval {lane.interval} W" if lane.interval else lane.words
