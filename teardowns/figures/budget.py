"""Budget bars: what each input adds to the uncertainty of a result."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .axes import Axis, grid, linear_axis, tick_labels
from .markup import element, escape, percent, picture
from .scale_table import scale_row, scale_table


@dataclass(frozen=True, slots=True)
class Part:
    name: str               # markup, symbols may carry subscripts
    detail: str             # "68 ± 13 V"
    size: float             # in the result's unit, k = 1
    text: str               # "2.50 W"
    share_text: str         # "91 % of the variance"


def budget_bars(caption: str, unit: str, parts: Sequence[Part], total: Part) -> str:
    axis = linear_axis(0, max([total.size, *(part.size for part in parts)]) or 1.0)
    rows = [_row(axis, part, "part", None) for part in parts]
    heads = ("Input", f"0 to {axis.ticks[-1]:g} {unit}", "Contribution, share")
    foot = _row(axis, total, "unc", "low")
    return scale_table("budget", caption, heads, tick_labels(axis), rows, [foot])


def _row(axis: Axis, part: Part, bar: str, cls: str | None) -> str:
    rect = element("rect", cls=bar, x=0, width=percent(axis(part.size)), y=-6, height=12)
    drawing = grid(axis) + element("svg", rect, y="50%", height="1")
    name = part.name + element("small", escape(part.detail))
    numbers = escape(part.text) + element("small", escape(part.share_text))
    return scale_row(name, picture(drawing, part.text), numbers, cls)
