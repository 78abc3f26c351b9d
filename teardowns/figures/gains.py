"""Gain bars: what each next step is expected to say, per minute at the bench."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .axes import Axis, grid, linear_axis, tick_labels, upright
from .markup import element, escape, percent, picture
from .scale_table import linked, scale_row, scale_table

HEADS = ("Step", "Bits per minute, from zero", "Bits per minute")
THINNEST = 0.6          # percent of the width, so that a small gain is still a bar


@dataclass(frozen=True, slots=True)
class Gain:
    text: str               # the instruction
    rule: str               # "Bulk capacitor", the line that it is for
    stage: str              # "with the case open"
    rate: float             # bits per minute
    rate_text: str          # "0.053"
    whole_text: str         # "0.80 bits in 15 min"
    href: str = ""          # to the rule


def gain_bars(caption: str, gains: Sequence[Gain]) -> str:
    axis = linear_axis(0, max((gain.rate for gain in gains), default=1.0), most_ticks=5)
    rows = [_row(axis, gain) for gain in gains]
    return scale_table("gains", caption, HEADS, tick_labels(axis), rows)


def _row(axis: Axis, gain: Gain) -> str:
    bar = element("rect", cls="part", x=0, y=-6, height=12,
                  width=percent(max(axis(gain.rate), THINNEST)))
    drawing = grid(axis) + element("svg", bar, y="50%", height="1") + upright("zero", axis(0))
    name = escape(gain.text) + element(
        "small", linked(gain.rule, gain.href), escape(f", {gain.stage}"))
    numbers = escape(gain.rate_text) + element("small", escape(gain.whole_text))
    return scale_row(name, picture(drawing), numbers)


def gain_bar(share: float) -> str:
    """One bar alone, beside its numbers in a narrow list; share : of the longest, 0 to 1."""
    width = percent(max(100 * min(share, 1.0), THINNEST))
    return element("svg", element("rect", cls="rest", width="100%", height="100%"),
                   element("rect", cls="part", width=width, height="100%"),
                   cls="gain", aria_hidden="true")
