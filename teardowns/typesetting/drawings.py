"""A drawing of a page → a file of its own: fixed size, attributes in place of classes.

On a page a drawing fills its cell: lengths in percent, glyphs in nested drawings, classes for ink.
A typesetter wants none of these, so all of it is worked out here.
"""
from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from xml.etree.ElementTree import Element, SubElement, tostring

from .html_tree import classes
from .styles import Styles

REM = 16.0                       # px
SMALL = 13.0                     # px, of text in drawings
LARGER = {"winding": 15.0}        # where the style sheet says so of all text in a drawing
GUTTER = 56.0                    # px, of level numbers left of a chart and half a label right of it
HALO = 130                       # part of a photo's width
FONT = "Libertinus Serif"
ACROSS = frozenset({"x", "x1", "x2", "cx", "width", "dx", "rx"})
DOWN = frozenset({"y", "y1", "y2", "cy", "height", "dy", "ry"})
LEFT_OUT = frozenset({"class", "id", "role", "aria-hidden", "aria-labelledby", "aria-describedby",
                      "vector-effect", "href", "focusable", "data-key", "data-version",
                      "data-shape", "data-points", "font-family", "xmlns"})
# All that may be in a drawing; nothing that loads a file or runs.
DRAWN = frozenset({"g", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "text",
                   "tspan"})
NAMESPACE = "http://www.w3.org/2000/svg"
_LENGTH = re.compile(r"^(-?[\d.]+)(%|rem|em|px)?$")
_NUMBER = re.compile(r"-?\d*\.?\d+(?:e-?\d+)?")
_POINTED = re.compile(r"url\(#([\w-]+)\)")


@dataclass(frozen=True)
class Ink:
    """What drawings of a page share: how classes look, and the marks that are drawn by name."""

    styles: Styles
    symbols: dict[str, Element] = field(default_factory=dict)     # by id; symbols and patterns
    ink: str = "#17222d"
    say: Callable[[str], str] = str          # words of ours in the reader's language


@dataclass(frozen=True)
class Field:
    """The room that percentages are of. [px]"""

    width: float
    height: float
    stretched: tuple[float, float] | None = None     # of a box whose inside counts differently
    haloed: float = 0.0          # width of the paper round letters that lie on a picture


def _first(svg):
    return next(iter(classes(svg)), "")


def symbols_in(root: Element) -> dict[str, Element]:
    return {node.get("id", ""): node for node in root.iter()
            if node.tag in ("symbol", "pattern") and node.get("id")}


def standalone(svg: Element, width: float, height: float, ink: Ink, colour: str = "",
               beside: float = 0.0) -> str:
    """The file of a drawing of this size in px; what it says in words is left out.

    colour : what `currentColor` means where it stands
    beside : room to its left and right, over which ends of labels hang
    """
    box = svg.get("viewBox") or f"{-beside:g} 0 {width:g} {height:g}"
    _, _, across, down = (float(part) for part in box.replace(",", " ").split())
    # Such a drawing counts from the end of a gutter, for whose numbers a page leaves room.
    across -= 2 * beside + (GUTTER if "log-drawing" in classes(svg) else 0.0)
    size = svg.get("font-size") or f"{LARGER.get(_first(svg), SMALL):g}"
    root = Element("svg", {
        "xmlns": NAMESPACE, "width": f"{width:g}", "height": f"{height:g}", "viewBox": box,
        "font-family": FONT, "font-size": size, "color": colour or ink.ink})
    _own_defs(svg, root, ink)
    whole = {name: svg.get(name, "") for name in ("stroke", "stroke-width", "fill")
             if svg.get(name)}
    group = SubElement(root, "g", whole | _look(svg, ink) | {"color": colour or ink.ink})
    halo = across / HALO if "photo-marks" in classes(svg) else 0.0
    _children(svg, group, Field(across, down, haloed=halo), ink)
    return tostring(root, encoding="unicode")


def _own_defs(svg, root, ink):
    """Patterns that something in it is filled with."""
    named = {name for node in svg.iter() for value in node.attrib.values()
             for name in _POINTED.findall(value)}
    inside = {node.get("id"): node for node in svg.iter("pattern")}
    found = [inside.get(name, ink.symbols.get(name)) for name in sorted(named)]
    if not any(node is not None for node in found):
        return
    defs = SubElement(root, "defs")
    for node in found:
        if node is not None:
            copy = SubElement(defs, "pattern", dict(node.attrib))
            _children(node, copy, Field(1, 1), ink)


def _children(node, into, room, ink):
    for child in node:
        _copy(child, into, room, ink)


def _copy(node, into, room, ink):
    if node.tag in ("title", "desc", "defs"):
        return
    if node.tag == "svg":
        _nested(node, into, room, ink)
    elif node.tag == "use":
        _used(node, into, room, ink)
    elif node.tag not in DRAWN:
        _children(node, into, room, ink)
    else:
        made = SubElement(into, node.tag, _attributes(node, room, ink))
        made.text = node.text
        _children(node, made, room, ink)


def _nested(node, into, room, ink):
    """A drawing within a drawing becomes a group that is moved, and stretched where asked."""
    x, y = _px(node.get("x", "0"), room.width), _px(node.get("y", "0"), room.height)
    inner = Field(_px(node.get("width", "100%"), room.width),
                  _px(node.get("height", "100%"), room.height))
    if box := node.get("viewBox"):
        _, _, across, down = (float(part) for part in box.split())
        inner = Field(across, down, (inner.width / across, inner.height / down))
    group = SubElement(into, "g", _look(node, ink) | {"transform": f"translate({x:g} {y:g})"})
    _children(node, group, inner, ink)


def _used(node, into, room, ink):
    symbol = ink.symbols.get((node.get("href") or "").lstrip("#"))
    if symbol is not None:
        _children(symbol, into, room, ink)


def _attributes(node, room, ink):
    said = {name: value for name, value in node.attrib.items() if name not in LEFT_OUT}
    for name, value in said.items():
        if name in ACROSS:
            said[name] = f"{_px(value, room.width):.2f}"
        elif name in DOWN:
            said[name] = f"{_px(value, room.height):.2f}"
    if room.stretched and "d" in said:
        said["d"] = _stretched(said["d"], *room.stretched)
    if node.tag == "text":
        said.setdefault("fill", "currentColor")
        if room.haloed:
            said |= {"stroke": "#ffffff", "stroke-width": f"{room.haloed:g}",
                     "stroke-linejoin": "round", "paint-order": "stroke", "font-weight": "600",
                     "font-size": f"{3.6 * room.haloed:g}", "dy": f"{-room.haloed:g}"}
    return said | _look(node, ink)


def _look(node, ink):
    found: dict[str, str] = {}
    for name in classes(node):
        found |= ink.styles.get(name, {})
    own = {name: node.get(name) for name in ("fill",) if (node.get(name) or "").startswith("url")}
    return {**found, **own}


def _px(length, of):
    match = _LENGTH.match(length.strip())
    if match is None:
        return 0.0
    number = float(match[1])
    return number * {"%": of / 100, "rem": REM, "em": SMALL}.get(match[2] or "", 1.0)


def _stretched(path, across, down):
    """Its points moved, so that the line stays as thick as it is: absolute M, L and Z alone,
    and h0 and h32, which are short enough to stay."""
    parts = re.split(r"([A-Za-z])", path)
    made, command = [], ""
    for part in parts:
        if part.isalpha():
            command = part
            made.append(part)
            continue
        numbers = [float(one) for one in _NUMBER.findall(part)]
        if command in "MLml" and command:
            numbers = [one * (down if i % 2 else across) for i, one in enumerate(numbers)]
        made.append(" ".join(f"{one:.2f}" for one in numbers))
    return "".join(made)
