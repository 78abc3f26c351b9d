"""The barrier map: every path between mains and a hand, what was measured beside what is required.

Filled block: metal on the mains side; open block: what it is kept from; tall stroke: the
requirement, a band where the assumptions leave a choice; hatching: the distance that is missing.
"""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .axes import Axis, grid, linear_axis, tick_labels
from .marks import grade_mark
from .markup import element, escape, percent, picture, pinned
from .scale_table import linked, scale_row, scale_table

HALF = 15               # px, of the requirement's stroke
BEYOND = 2.0            # a distance is drawn to this many times the largest requirement
NEVER = element("line", cls="unm", x1="0", x2="100%", y1="0", y2="0")


@dataclass(frozen=True, slots=True)
class Span:
    """One path; lengths in mm, None where not known."""

    place: str
    detail: str             # "creepage, photo with a scale"
    evidence: str           # address of its row of evidence, or ""
    grade: str
    value: float | None
    u: float | None
    low: float | None       # the requirement under lenient assumptions
    high: float | None      # and under demanding ones
    measured: str           # "4.1 ± 0.3 mm", or "not looked at"
    required: str           # "3 to 3.4 mm", or ""
    remark: str             # "least of this kind", or ""
    working: str            # address
    spoken: str = ""        # all of it for who cannot see it, in their language

    @property
    def end(self) -> float:
        """How far along the scale it reaches."""
        return 0.0 if self.value is None else self.value + (self.u or 0.0)


def barrier_map(caption: str, groups: Sequence[tuple[str, Sequence[Span]]]) -> str:
    """A table whose rows stand under the barrier that they cross.

    groups : heading of a barrier, and its paths
    """
    axis = _axis([span for _, spans in groups for span in spans])
    rows = [row for heading, spans in groups for row in _group(axis, heading, spans)]
    heads = ("Path", f"0 to {axis.ticks[-1]:g} millimetres", "Measured, required, grade")
    return scale_table("barrier", caption, heads, tick_labels(axis), rows)


def _axis(spans: Sequence[Span]) -> Axis:
    required = max((span.high or 0.0 for span in spans), default=0.0)
    longest = max((span.end for span in spans), default=0.0)
    # One roomy gap must not squeeze the others; it is cut and the numbers say so.
    return linear_axis(0, max(min(longest, BEYOND * required) if required else longest,
                              required, 1.0) * 1.05)


def _group(axis: Axis, heading: str, spans: Iterable[Span]) -> Iterable[str]:
    head = element("th", escape(heading), scope="rowgroup", role="rowheader", colspan=3)
    yield element("tr", head, cls="group", role="row")
    for span in spans:
        yield _row(axis, span)


def _row(axis: Axis, span: Span) -> str:
    cut = span.value is not None and not axis.holds(span.value)
    name = (element("span", linked(span.place, span.evidence), translate="no")
            + element("small", escape(span.detail)))
    numbers = grade_mark(span.grade) + "".join(
        element("small", line) for line in _numbers(span, cut))
    middle = element("svg", _drawing(axis, span, cut), y="50%", height="1")
    drawn = picture(grid(axis) + middle, span.spoken or spoken(span),
                    translate="no" if span.spoken else None)
    return scale_row(name, drawn, numbers)


def _numbers(span: Span, cut: bool) -> list[str]:
    """Measured, required, remark: a line each."""
    measured = linked(span.measured, span.working) + (" (drawn cut)" if cut else "")
    required = f"required {span.required}" if span.required else ""
    return [measured, *(escape(line) for line in (required, span.remark) if line)]


def spoken(span: Span) -> str:
    """What the row shows, in a sentence."""
    if span.value is None:
        return (f"{span.place}, {span.detail}: {span.measured}, required {span.required}, "
                f"{span.grade}" if span.required else
                f"{span.place}, {span.detail}: {span.measured}, {span.grade}")
    return (f"{span.place}, {span.detail}: measured {span.measured}, required {span.required}, "
            f"{span.grade}" if span.required else
            f"{span.place}, {span.detail}: measured {span.measured}, {span.grade}")


def _drawing(axis: Axis, span: Span, cut: bool) -> str:
    mains = element("rect", cls="cop", x=-9, y=-10, width=9, height=20)
    if span.value is None:
        return _requirement(axis, span) + mains + NEVER
    return (_band(axis, span) + _missing(axis, span, span.value) + _requirement(axis, span) + mains
            + _distance(axis, span.value, cut) + _doubt(axis, span.value, span.u))


def _band(axis: Axis, span: Span) -> str:
    if span.low is None or span.high is None or span.low == span.high:
        return ""
    start, end = axis(span.low), axis(span.high)
    return element("rect", cls="req-b", x=percent(start), width=percent(end - start),
                   y=-HALF, height=2 * HALF)


def _missing(axis: Axis, span: Span, value: float) -> str:
    """From the far metal to where it would have to be under the most lenient assumptions."""
    if span.grade != "falls short" or span.low is None or value >= span.low:
        return ""
    start, end = axis(value), axis(span.low)
    return element("rect", cls="miss", fill="url(#h-short)", x=percent(start),
                   width=percent(end - start), y=-8, height=16)


def _requirement(axis: Axis, span: Span) -> str:
    """Solid where it is demanding, dashed where it is lenient."""
    ends = {span.high: None, span.low: "3 3"} if span.low != span.high else {span.high: None}
    return "".join(
        element("line", cls="req", x1=percent(axis(end)), x2=percent(axis(end)), y1=-HALF, y2=HALF,
                stroke_dasharray=dashes)
        for end, dashes in ends.items() if end is not None)


def _distance(axis: Axis, value: float, cut: bool) -> str:
    place = axis(value)
    line = element("line", cls="dim", x1=0, x2=percent(place), y1=0, y2=0)
    near = element("path", cls="dim-a", d="M0 0l9-3.5v7z") if place > 4 else ""
    if cut:
        return line + near + pinned(97, element("path", cls="cut", d="M-3 11l6-22M2 11l6-22"), "0")
    head = element("path", cls="dim-a", d="M0 0l-9-3.5v7z") if place > 4 else ""
    far = element("rect", cls="cop2", x=0, y=-10, width=9, height=20)
    return line + near + pinned(place, head + far, "0")


def _doubt(axis: Axis, value: float, u: float | None) -> str:
    if not u:
        return ""
    start, end = axis(value - u), axis(value + u)
    return element("rect", cls="unc", x=percent(start), width=percent(end - start),
                   y=-HALF, height=3)
