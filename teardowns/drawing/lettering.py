"""Text in the one face that Pillow carries, and the signs which that face lacks.

The face has Latin letters without accents; units, dashes and the signs of rating plates are drawn
here as strokes. A character that neither has is an empty frame, so that its place shows.
"""
from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import cache
from math import cos, radians, sin

from PIL import ImageDraw, ImageFont

CAP = 0.7               # height of capitals, of the size
_STROKE = 0.075         # width of a drawn stroke, of the size
_PLAIN = {"\u202f": " ", "\u2009": " ", "\u00a0": " ", "Ⅵ": "VI", "Ⅴ": "V", "\t": "   "}
Stroke = tuple[tuple[float, float], ...]        # in sizes, y upward from the base line


def _ring(x: float, y: float, radius: float, start: float = 0, stop: float = 360) -> Stroke:
    steps = [radians(start + (stop - start) * i / 24) for i in range(25)]
    return tuple((x + radius * cos(a), y + radius * sin(a)) for a in steps)


def _square(x: float, y: float, side: float) -> Stroke:
    return ((x, y), (x + side, y), (x + side, y + side), (x, y + side), (x, y))


def _bar(left: float, right: float, y: float) -> Stroke:
    return ((left, y), (right, y))


_DOUBLE_SQUARE = (0.9, (_square(0.06, 0.0, 0.74), _square(0.25, 0.19, 0.36)))
# Advance in sizes, and strokes.
_SIGNS: dict[str, tuple[float, tuple[Stroke, ...]]] = {
    "⎓": (0.84, (_bar(0.08, 0.76, 0.42), _bar(0.08, 0.26, 0.22), _bar(0.33, 0.51, 0.22),
                 _bar(0.58, 0.76, 0.22))),
    "⧈": _DOUBLE_SQUARE, "回": _DOUBLE_SQUARE,
    "⌂": (0.86, (((0.08, 0.36), (0.42, 0.72), (0.76, 0.36)),
                 ((0.18, 0.28), (0.18, 0.0), (0.66, 0.0), (0.66, 0.28)))),
    "⏚": (0.8, (((0.4, 0.72), (0.4, 0.32)), _bar(0.1, 0.7, 0.32), _bar(0.2, 0.6, 0.18),
                _bar(0.31, 0.49, 0.04))),
    "Ω": (0.8, (((0.06, 0.03), (0.3, 0.03), *_ring(0.4, 0.4, 0.29, 250, -70), (0.5, 0.03),
                 (0.74, 0.03)),)),
    "µ": (0.6, (((0.1, 0.5), (0.1, -0.2)), ((0.1, 0.16), *_ring(0.28, 0.2, 0.18, 190, 350),
                                            (0.46, 0.5)), ((0.46, 0.24), (0.5, 0.03)))),
    "×": (0.6, (((0.12, 0.12), (0.46, 0.46)), ((0.12, 0.46), (0.46, 0.12)))),
    "–": (0.56, (_bar(0.04, 0.5, 0.26),)),
    "—": (0.96, (_bar(0.04, 0.9, 0.26),)),
    "−": (0.62, (_bar(0.08, 0.54, 0.3),)),
    "≤": (0.64, (((0.54, 0.58), (0.1, 0.36), (0.54, 0.14)), _bar(0.1, 0.54, 0.02))),
    "≥": (0.64, (((0.1, 0.58), (0.54, 0.36), (0.1, 0.14)), _bar(0.1, 0.54, 0.02))),
    "⊖": (0.84, (_ring(0.4, 0.34, 0.32), _bar(0.22, 0.58, 0.34))),
    "⊕": (0.84, (_ring(0.4, 0.34, 0.32), _bar(0.22, 0.58, 0.34), ((0.4, 0.16), (0.4, 0.52)))),
    "●": (0.7, tuple(_ring(0.34, 0.34, r) for r in (0.04, 0.1, 0.16, 0.22, 0.28))),
    "○": (0.7, (_ring(0.34, 0.34, 0.26),)),
    "Ø": (0.8, (_ring(0.4, 0.35, 0.34), ((0.12, -0.02), (0.68, 0.72)))),
    "→": (0.9, (_bar(0.06, 0.8, 0.3), ((0.58, 0.5), (0.8, 0.3), (0.58, 0.1)))),
}
_SIGNS["μ"] = _SIGNS["µ"]
_SIGNS["⌀"] = _SIGNS["Ø"]
_UNKNOWN = (0.66, (((0.08, 0.0), (0.56, 0.0), (0.56, 0.7), (0.08, 0.7), (0.08, 0.0)),))


@cache
def face(size: float) -> ImageFont.FreeTypeFont:
    """The face at a size in pixels."""
    font = ImageFont.load_default(size=size)
    assert isinstance(font, ImageFont.FreeTypeFont), "Pillow was built without FreeType"
    return font


@cache
def _has(character: str) -> bool:
    font = face(40)
    return bytes(font.getmask(character)) != bytes(font.getmask("\uffff"))


@cache
def spelled(text: str) -> str:
    """The text in characters that can be drawn: spaces made plain, accents dropped."""
    return "".join(map(_drawable, text))


def _drawable(character: str) -> str:
    character = _PLAIN.get(character, character)
    if len(character) > 1 or character in _SIGNS or _has(character):
        return character
    base = unicodedata.normalize("NFKD", character)[0]
    return base if _has(base) or base in _SIGNS else "\uffff"


def _runs(text: str) -> Iterator[str]:
    """Stretches of letters, and signs one by one."""
    run = ""
    for character in spelled(text):
        if character in _SIGNS or character == "\uffff":
            yield from (run, character) if run else (character,)
            run = ""
        else:
            run += character
    if run:
        yield run


def _sign(run: str) -> tuple[float, tuple[Stroke, ...]] | None:
    return _SIGNS.get(run, _UNKNOWN if run == "\uffff" else None)


@cache
def width_of(text: str, size: float) -> float:
    """Advance of one line of text. [px]"""
    return sum(sign[0] * size if (sign := _sign(run)) else face(size).getlength(run)
               for run in _runs(text))


def fitting_size(text: str, width: float, largest: float, smallest: float) -> float:
    """The largest size, in whole pixels, at which the text is no wider; `smallest` at least."""
    size = largest
    while width_of(text, size) > width and size > smallest:     # hinting: not quite proportional
        size = max(min(float(int(size * width / width_of(text, size))), size - 1.0), smallest)
    return size


def wrapped(text: str, size: float, width: float) -> list[str]:
    """The text in lines no wider than `width`, broken at spaces."""
    lines: list[str] = []
    for word in text.split(" "):        # a no-break space keeps number and unit together
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(joined, size) <= width:
            lines[-1] = joined
        else:
            lines.append(word)
    return lines


def write(draw: ImageDraw.ImageDraw, at: tuple[float, float], text: str, size: float,
          colour, weight: int = 0) -> None:
    """One line, its base line starting at a point. weight : pixels added to each stroke"""
    x, y = at
    for run in _runs(text):
        if sign := _sign(run):
            _draw_sign(draw, (x, y), sign[1], size, colour, weight)
            x += sign[0] * size
        else:
            draw.text((x, y), run, fill=colour, font=face(size), anchor="ls",
                      stroke_width=weight)
            x += face(size).getlength(run)


def _draw_sign(draw: ImageDraw.ImageDraw, at: tuple[float, float], strokes: tuple[Stroke, ...],
               size: float, colour, weight: int) -> None:
    wide = max(round(_STROKE * size) + weight, 1)
    for stroke in strokes:
        points = [(at[0] + x * size, at[1] - y * size) for x, y in stroke]
        draw.line(points, fill=colour, width=wide, joint="curve")

