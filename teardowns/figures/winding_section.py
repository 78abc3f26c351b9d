"""The winding cross-section: half of the bobbin, the core below, its layers drawn to scale.

Disc: primary; grey disc: auxiliary; ring with a dot: output; double ring: more than enamel round
an output wire; bar: shield; lines: tape, broken where damaged, dotted where melted or not read. A
row of wires is one line of round dashes. Letters stand in the drawing, words in its list.
"""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from .markup import element, escape

WIDTH = 400             # drawing units, of the core
LARGEST = 40.0          # units per mm
YOKE, CHEEK = 1.2, 0.6  # mm shown of the core's yokes and of the bobbin's cheeks; nobody measures
LEG = 16                # units shown of the core's legs
AIR = 12                # units between the outermost layer and the core's leg
WALL = 0.5              # mm, of a bobbin whose wall was not recorded
FINEST = 4.0            # units: thinner layers are drawn this thick, so that they can be counted
BLANK = 14.0            # units, of a layer that was not read
LETTER = 22             # units from letter to letter
LEAST_WIDTH = 5.0       # mm, of the winding
RING = 1.5              # units
DOT = 0.24              # of the diameter


@dataclass(frozen=True, slots=True)
class Wound:
    """A winding; lengths in mm, None where not known."""

    role: str
    wires: int | None           # side by side: turns times strands
    bare: float | None
    outer: float | None         # over its insulation
    insulated: bool             # more than enamel
    margins: tuple[float | None, float | None]
    marked: bool                # a reader should look at its words

    @property
    def length(self) -> float | None:
        """In one layer."""
        return self.wires * self.outer if self.wires and self.outer else None


@dataclass(frozen=True, slots=True)
class Sheets:
    """Insulation; lengths in mm."""

    count: int | None           # None: not read
    thickness: float | None     # of one
    condition: str              # "", "intact", "damaged" or "melted"
    wall: bool                  # of the bobbin
    marked: bool


@dataclass(frozen=True, slots=True)
class Placed:
    """A layer in the drawing: y counts upward from the core's leg."""

    layer: Wound | Sheets
    low: float
    high: float

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Frame:
    """The winding window in drawing units."""

    scale: float            # units per mm
    left: float
    width: float
    edge: float             # from the drawing's to the core's, on either side


def winding_section(title: str, description: str, layers: Sequence[Wound | Sheets],
                    weakest: tuple[int | None, int | None] | None = None,
                    scale: float | None = None, key: str = "wd") -> str:
    """layers : from the core outward, the letters A, B, … follow this order
    weakest : places of both sides of the neighbourhood to point at; None for the core
    scale : units per mm, where several sections share one; key : of this drawing on its page
    """
    frame = _frame(layers, scale)
    placed = _placed(frame, layers)
    height = (placed[-1].high if placed else 0.0) + AIR
    shown = _core(frame, height) + _bobbin(frame, layers, height)
    shown += "".join(_layer(frame, one) for one in placed)
    if weakest:
        shown += _weakest(frame, placed, weakest, height)
    letters, top = _letters(frame, placed, height)
    head = max(top, height + LEG + (LETTER if weakest else 0)) + 6
    flipped = element("g", shown + letters + _ruler(frame))
    names = element("title", escape(title), id=f"{key}-t") + element(
        "desc", escape(description), id=f"{key}-d", translate="no")
    return element("svg", names + _HATCH + flipped, cls="winding", role="img",
                   aria_labelledby=f"{key}-t {key}-d",
                   viewBox=f"0 {-head:.0f} {WIDTH + 56} {head + LEG + 32:.0f}")


_HATCH = element("defs", element(
    "pattern", element("path", cls="wd-hatch", d="M0 0v7"), id="h-core", width=7, height=7,
    patternUnits="userSpaceOnUse", patternTransform="rotate(45)"))


def axial_width(layers: Sequence[Wound | Sheets]) -> float:
    """mm: as wide as the output winding in one layer with its margins, else as the shortest one."""
    laid = [(one.role, one.length + sum(margin or 0.0 for margin in one.margins))
            for one in layers if isinstance(one, Wound) and one.length is not None]
    own = [width for role, width in laid if role == "secondary"] or [width for _, width in laid]
    return max(min(own, default=8.0), LEAST_WIDTH)


def fitting_scale(layers: Sequence[Wound | Sheets]) -> float:
    """Units per mm at which the section fills the drawing."""
    return min(WIDTH / (axial_width(layers) + 2 * (YOKE + CHEEK)), LARGEST)


def _frame(layers, scale) -> Frame:
    per_mm = scale or fitting_scale(layers)
    width = axial_width(layers) * per_mm
    left = (WIDTH - width) / 2
    edge = max(left - (YOKE + CHEEK) * per_mm, 0.0) if scale else 0.0
    return Frame(per_mm, left, width, edge)


def _placed(frame, layers) -> list[Placed]:
    placed, at = [], 0.0 if _has_wall(layers) else WALL * frame.scale
    for layer in layers:
        thick = (_wound if isinstance(layer, Wound) else _sheets)(frame, layer)
        placed.append(Placed(layer, at, at + thick))
        at += thick
    return placed


def _has_wall(layers):
    return any(isinstance(layer, Sheets) and layer.wall for layer in layers)


def _wound(frame, layer):
    if layer.length is None:
        return BLANK
    return _rows(frame, layer) * max(layer.outer * frame.scale, 1.0)


def _sheets(frame, layer):
    if layer.count is None:
        return BLANK
    return layer.count * max((layer.thickness or 0.0) * frame.scale, FINEST)


def _rows(frame, layer) -> int:
    return ceil(layer.wires / _per_row(frame, layer))


def _per_row(frame, layer) -> int:
    start, stop = _span(frame, layer)
    return max(int((stop - start) / (layer.outer * frame.scale) + 1e-6), 1)


def _span(frame, layer) -> tuple[float, float]:
    """Where a winding may lie, between its margins."""
    left, right = ((margin or 0.0) * frame.scale for margin in layer.margins)
    return frame.left + left, max(frame.left + frame.width - right, frame.left + left + 1)


def _core(frame, height):
    yoke = frame.left - CHEEK * frame.scale
    right = frame.left + frame.width + CHEEK * frame.scale
    far = WIDTH - frame.edge
    outline = (f"M{frame.edge:.4g} {LEG}H{far:.4g}V{-height - LEG:.1f}H{frame.edge:.4g}Z"
               f"M{yoke:.1f} 0V{-height:.1f}H{right:.1f}V0Z")
    return element("path", cls="wd-core", d=outline, fill="url(#h-core)", fill_rule="evenodd")


def _bobbin(frame, layers, height):
    """Cheeks, and the wall where none was recorded: broken, for nobody measured them."""
    cheek, wall = CHEEK * frame.scale, 0.0 if _has_wall(layers) else WALL * frame.scale
    up = height - 5
    shape = (f"M{frame.left - cheek:.1f} 0H{frame.left + frame.width + cheek:.1f}V{-up:.1f}"
             f"h{-cheek:.1f}V{-wall:.1f}H{frame.left:.1f}V{-up:.1f}h{-cheek:.1f}Z")
    return element("path", cls="wd-bobbin", d=shape)


def _layer(frame, placed):
    if isinstance(placed.layer, Sheets):
        return _drawn_sheets(frame, placed)
    return _margins(frame, placed) + _drawn_wires(frame, placed)


def _drawn_sheets(frame, placed):
    layer = placed.layer
    if layer.count is None:
        return _blank(frame, placed)
    if layer.wall:
        return _box(frame, placed, "wd-wall")
    pitch = (placed.high - placed.low) / max(layer.count, 1)
    state = f"wd-tape wd-{layer.condition}" if layer.condition else "wd-tape"
    return "".join(
        element("path", cls=state, stroke_width=f"{max(pitch * .6, 1):.1f}",
                d=f"M{frame.left:.1f} {-placed.low - (i + .5) * pitch:.1f}h{frame.width:.1f}")
        for i in range(layer.count))


def _blank(frame, placed):
    return _box(frame, placed, "wd-blank")


def _box(frame, placed, cls):
    return element("rect", cls=cls, x=f"{frame.left:.1f}", y=f"{-placed.high + 1:.1f}",
                   width=f"{frame.width:.1f}", height=f"{placed.high - placed.low - 2:.1f}")


def _margins(frame, placed):
    left, right = _span(frame, placed.layer)
    ends = ((frame.left, left), (right, frame.left + frame.width))
    return "".join(
        element("rect", cls="wd-margin", x=f"{start:.1f}", y=f"{-placed.high:.1f}",
                width=f"{stop - start:.1f}", height=f"{placed.high - placed.low:.1f}")
        for (start, stop), margin in zip(ends, placed.layer.margins, strict=True) if margin)


def _drawn_wires(frame, placed):
    layer = placed.layer
    if layer.length is None:
        return _blank(frame, placed)
    if layer.role == "shield":
        return _box(frame, placed, "wd-shield")
    full, rows = _per_row(frame, layer), _rows(frame, layer)
    pitch = (placed.high - placed.low) / rows
    start, stop = _span(frame, layer)
    drawn = []
    for row in range(rows):
        count = min(full, layer.wires - row * full)
        first = start + (stop - start - min(layer.wires, full) * pitch) / 2 + pitch / 2
        line = (f"M{first:.2f} {-placed.low - (row + .5) * pitch:.2f}"
                f"h{(count - 1) * pitch + .01:.2f}")
        drawn += [element("path", cls=f"wd-wire wd-{ink}", d=line, stroke_width=f"{width:.2f}",
                          stroke_dasharray=f"0 {pitch:.3f}")
                  for ink, width in _rings(layer, .92 * pitch)]
    return "".join(drawn)


def _rings(layer, size):
    """Discs upon each other, the largest first: ink and diameter."""
    if layer.role != "secondary":
        return [("quiet" if layer.role == "auxiliary" else "ink", size)]
    ring = min(RING, size / 5)
    rings = [("ink", size), ("paper", size - 2 * ring)]
    inner = size * layer.bare / layer.outer
    if layer.insulated and inner > 4 * ring:
        rings += [("ink", inner), ("paper", inner - 2 * ring)]
    return [*rings, ("ink", DOT * size)]


def _weakest(frame, placed, sides, height):
    """A frame round what parts the least insulated neighbours, and their letters."""
    first, last = sides
    low = 0.0 if first is None else placed[first].high
    high = height if last is None else placed[last].low
    middle, x = -(low + high) / 2, frame.left - CHEEK * frame.scale / 2
    box = element("rect", cls="wd-least", x=f"{frame.left - 3:.1f}", y=f"{-high - 1.5:.1f}",
                  width=f"{frame.width + 6:.1f}", height=f"{high - low + 3:.1f}")
    line = element("path", cls="wd-least",
                   d=f"M{frame.left - 3:.1f} {middle:.1f}H{x:.1f}V{-height - LEG - 4:.1f}")
    name = f"least: {letter_of(first)} to {letter_of(last)}"
    text = element("text", escape(name), cls="claim-t", x=f"{max(x - 20, 0):.1f}",
                   y=f"{-height - LEG - 9:.1f}")
    return box + line + text


def letter_of(place: int | None) -> str:
    """ "A", … "Z", "AA"; the core has none."""
    if place is None:
        return "core"
    return "" if place < 0 else letter_of(place // 26 - 1) + chr(65 + place % 26)


def _letters(frame, placed, height) -> tuple[str, float]:
    """Letters right of the core, apart from each other, and how far up they reach."""
    at, drawn = -LETTER * 1.0, ""
    for place, one in enumerate(placed):
        at = max(at + LETTER, one.middle)
        leader = f"M{frame.left + frame.width:.1f} {-one.middle:.1f}L{WIDTH + 6} {-at:.1f}h10"
        drawn += element("path", cls="wd-leader", d=leader)
        drawn += element("text", letter_of(place) + ("\u2009!" if one.layer.marked else ""),
                         cls="claim-t" if one.layer.marked else None, x=WIDTH + 20,
                         y=f"{-at + 6:.1f}")
    return drawn, at + LETTER / 2


def _ruler(frame) -> str:
    length = 5 * frame.scale if 5 * frame.scale < WIDTH / 2 else 2 * frame.scale
    millimetres = 5 if length == 5 * frame.scale else 2
    return element("path", cls="wd-ruler", d=f"M{WIDTH - length:.1f} {LEG + 8}v8H{WIDTH}v-8") + (
        element("text", f"{millimetres}\u202fmm", x=f"{WIDTH - length - 8:.1f}", y=LEG + 21,
                text_anchor="end"))
