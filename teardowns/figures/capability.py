"""The foot of the ladder: density, 90 % interval, median, and the distance to the claim."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .axes import Axis
from .markup import element, escape, percent, pinned

CLOSE = 1.15             # a claim nearer to the interval than this has no distance worth drawing
LEVEL = "76%"            # of the foot's height, where interval and dimension lie


@dataclass(frozen=True, slots=True)
class Capability:
    median: float                                   # W
    low: float                                      # W, 5 %
    high: float                                     # W, 95 %
    density: Sequence[tuple[float, float]]          # W against relative density 0 to 1
    ratio_text: str = ""                            # "× 3.1": the claim over the median


def capability_drawing(axis: Axis, capability: Capability, claim: float | None) -> str:
    bar = element("line", cls="cap", x1=percent(axis(capability.low)),
                  x2=percent(axis(capability.high)), y1=LEVEL, y2=LEVEL)
    ring = pinned(axis(capability.median), element("circle", cls="med", r=4), LEVEL)
    apart = dimension(axis, capability, claim) if claim else ""
    return _hill(axis, capability.density) + apart + bar + ring


def _hill(axis: Axis, density: Sequence[tuple[float, float]]) -> str:
    inside = [(axis(watts) * 10, 40 - 38 * height) for watts, height in density
              if axis.holds(watts)]
    if len(inside) < 2:
        return ""
    outline = " ".join(f"{x:.1f},{y:.1f}" for x, y in inside)
    path = f"M{inside[0][0]:.1f},40 L{outline} {inside[-1][0]:.1f},40z"
    return element("svg", element("path", cls="dens", d=path), width="100%", height="60%",
                   viewBox="0 0 1000 40", preserveAspectRatio="none")


def dimension(axis: Axis, capability: Capability, claim: float) -> str:
    """A dimension line from the near end of the interval to the claim, with its ratio."""
    if capability.low / CLOSE <= claim <= capability.high * CLOSE:
        return ""
    above = claim > capability.high
    near = axis(capability.high if above else capability.low)
    return _measure(near, axis(claim), 1 if above else -1) + _ratio(
        near, axis(claim), axis(capability.low if above else capability.high),
        1 if above else -1, capability.ratio_text,
    )


def _measure(near: float, far: float, way: int) -> str:
    if abs(far - near) < 6:              # no room for two arrow heads
        return ""
    start, end = near + way, far - 0.4 * way
    line = element("line", cls="dim", x1=percent(start), x2=percent(end), y1=LEVEL, y2=LEVEL)
    return line + _head(end, -way) + _head(start, way)


def _head(share: float, way: int) -> str:
    return pinned(share, element("path", cls="dim-a", d=f"M0 0l{9 * way}-3.5v7z"), LEVEL)


def _ratio(near: float, far: float, opposite: float, way: int, text: str) -> str:
    """Above the line where it fits, else beyond the claim, else behind the interval."""
    if abs(far - near) >= 14:
        return _label((near + far) / 2, "middle", text, "-.5em")
    if 14 < far < 86:
        return _label(far + 1.5 * way, "start" if way > 0 else "end", text, ".35em")
    return _label(opposite - 1.5 * way, "end" if way > 0 else "start", text, ".35em")


def _label(share: float, anchor: str, text: str, dy: str) -> str:
    return element("text", escape(text), x=percent(share), y=LEVEL, dy=dy, text_anchor=anchor)
