"""Lines through samples: paths that break at gaps, and ways to tell lines apart without colour."""
from __future__ import annotations

from collections.abc import Iterable
from math import isfinite, isnan

from .axes import Axis, linear_axis, plain
from .markup import element, escape, percent

# Lengths of stroke and space; a seventh line starts again, thinner.
DASHES = (None, "7 4", "1.5 4", "12 4 1.5 4", "3 3", "12 4 4 4")
WIDTHS = ("1.6", "0.9")
GUTTER = 46              # px; the stylesheet knows it too


def path_data(points: Iterable[tuple[float, float]], x: Axis, y: Axis, height: float) -> str:
    """A path in a box of 1000 by `height`; a point whose value is NaN breaks the line."""
    parts, lifted = [], True
    for across, up in points:
        if isnan(up):
            lifted = True
            continue
        place = f"{x(across) * 10:.1f} {height * (1 - y(up) / 100):.1f}"
        # A point alone between two gaps is a stroke of no length, which round ends make a dot.
        parts.append(f"M{place}h0" if lifted else f"L{place}")
        lifted = False
    return "".join(parts)


def line(data: str, index: int, cls: str = "log-line") -> str:
    """One line in the style of its place among its neighbours; its width stays on any scale."""
    width = WIDTHS[index // len(DASHES) % len(WIDTHS)]
    return element("path", d=data, cls=cls, fill="none", stroke="currentColor",
                   stroke_width=width, stroke_dasharray=DASHES[index % len(DASHES)],
                   stroke_linejoin="round", stroke_linecap="round",
                   vector_effect="non-scaling-stroke")


def box(contents: str, top: float, height: float) -> str:
    """A field as wide as the drawing, in which x counts to 1000."""
    return element("svg", contents, y=f"{top:g}", width="100%", height=f"{height:g}",
                   viewBox=f"0 0 1000 {height:g}", preserveAspectRatio="none")


def legend_entry(index: int, label: str, top: float) -> str:
    """A short piece of a line, and whose it is; the label is in the reader's language already."""
    piece = element("svg", line("M0 0h32", index), x=-GUTTER, y=f"{top:g}", width="32", height="1")
    return piece + element("text", escape(label), cls="log-over", x=40 - GUTTER,
                           y=f"{top + 4:g}", translate="no")


def level_axis(values: Iterable[float], ticks: int = 4) -> Axis:
    """A linear axis around all finite values; one level alone stands in its middle."""
    known = [value for value in values if isfinite(value)]
    low, high = (min(known), max(known)) if known else (0.0, 1.0)
    if high - low < 1e-9 * max(abs(low), abs(high)) or high == low:
        room = abs(high) * 0.05 or 0.5
        low, high = low - room, high + room
    return linear_axis(low, high, ticks)


def levels(axis: Axis, top: float, height: float) -> str:
    """Hairlines across, each with its number in the gutter."""
    drawn = []
    for tick in axis.ticks:
        y = top + height * (1 - axis(tick) / 100)
        drawn.append(element("line", cls="grid", x1=0, x2="100%", y1=f"{y:.1f}", y2=f"{y:.1f}",
                             stroke="currentColor", stroke_opacity=".35"))
        drawn.append(element("text", plain(tick), cls="axis-t", x=-8, y=f"{y:.1f}", dy=".35em",
                             text_anchor="end"))
    return "".join(drawn)


def heading(words: str, top: float) -> str:
    """What a panel shows, from the gutter's edge on."""
    return element("text", escape(words), cls="log-head log-over", x=-GUTTER, y=f"{top:g}",
                   font_weight="bold")


def drawing(key: str, title: str, says: str, contents: str, height: float,
            width: int | None = None) -> str:
    """The whole drawing: to the width of its place, or a file of so many pixels of its own.

    All places count from the end of the gutter, to whose left the levels' numbers stand. On a page
    the stylesheet leaves that room. What it says for those who do not see it may name what people
    wrote, so that it comes in the reader's language already.
    """
    names = {part: f"{key}-{part}" for part in ("title", "desc")}
    field = element("svg", contents, x=GUTTER, height=f"{height:g}", overflow="visible",
                    width="100%" if width is None else width - GUTTER - 8)
    return element(
        "svg", element("title", escape(title), id=names["title"]),
        element("desc", escape(says), id=names["desc"], translate="no"), field,
        xmlns="http://www.w3.org/2000/svg", cls="log-drawing", role="img",
        width="100%" if width is None else width, height=f"{height:g}", font_family="sans-serif",
        font_size="13", aria_labelledby=names["title"], aria_describedby=names["desc"])


def text(words: str, share: float, y: float, anchor: str = "start", cls: str | None = None,
         **more: object) -> str:
    return element("text", escape(words), x=percent(share), y=f"{y:.1f}", text_anchor=anchor,
                   cls=cls, **more)


def edge_anchor(share: float) -> str:
    """How a text is set so that the right edge of the drawing does not cut it."""
    return "end" if share > 96 else "middle"
