"""A sheet to draw on: pixels of the finished picture, drawn twice as large for smooth edges."""
from __future__ import annotations

from collections.abc import Sequence
from math import hypot

from PIL import Image, ImageDraw

from teardowns.drawing import lettering
from teardowns.drawing.colours import EDGE, INK, INK_2, PAPER, RULE

WIDTH, HEIGHT = 1600, 1200
FINE = 2                # drawn pixels per pixel
MARGIN = 60
NOTE = "Drawing, not a photograph"
Point = tuple[float, float]
Box = tuple[float, float, float, float]


class Sheet:
    """Shapes and text; positions and sizes in pixels of the finished picture."""

    def __init__(self, title: str, subtitle: str = "", paper: str = PAPER) -> None:
        self._image = Image.new("RGB", (WIDTH * FINE, HEIGHT * FINE), paper)
        self._draw = ImageDraw.Draw(self._image, "RGBA")
        self.text((MARGIN, 50), title, 38, INK, "l", bold=True)
        if subtitle:
            self.text((MARGIN, 96), subtitle, 25, INK_2, "l")

    def finished(self) -> Image.Image:
        """The picture, with the line that says what it is."""
        self.line([(MARGIN, HEIGHT - 52), (WIDTH - MARGIN, HEIGHT - 52)], RULE, 2)
        self.text((WIDTH - MARGIN, HEIGHT - 28), NOTE, 22, INK_2, "r")
        return self._image.reduce(FINE)

    def box(self, box: Box, fill=None, edge=None, width: float = 2, radius: float = 0) -> None:
        """A rectangle by two opposite corners."""
        left, right = sorted((box[0], box[2]))
        top, bottom = sorted((box[1], box[3]))
        xy = [v * FINE for v in (left, top, right, bottom)]
        self._draw.rounded_rectangle(xy, min(radius, (right - left) / 2, (bottom - top) / 2) * FINE,
                                     fill, edge, round(width * FINE) if edge else 0)

    def disc(self, centre: Point, radius: float, fill=None, edge=None, width: float = 2) -> None:
        """A circle."""
        x, y = centre
        xy = [v * FINE for v in (x - radius, y - radius, x + radius, y + radius)]
        self._draw.ellipse(xy, fill, edge, round(width * FINE) if edge else 0)

    def slice(self, centre: Point, radius: float, start: float, stop: float, fill) -> None:
        """The part of a disc beyond the chord between two angles, degrees clockwise from east."""
        x, y = centre
        xy = [v * FINE for v in (x - radius, y - radius, x + radius, y + radius)]
        self._draw.chord(xy, start, stop, fill)

    def polygon(self, points: Sequence[Point], fill=None, edge=None, width: float = 2) -> None:
        """A closed shape."""
        fine = [(x * FINE, y * FINE) for x, y in points]
        if fill:
            self._draw.polygon(fine, fill)
        if edge:
            self._draw.line([*fine, *fine[:2]], edge, round(width * FINE), joint="curve")

    def line(self, points: Sequence[Point], colour=INK, width: float = 2,
             dash: tuple[float, float] | None = None) -> None:
        """A line through points; dash : drawn and left out, pixels"""
        for piece in _dashes(points, *dash) if dash else (points,):
            self._draw.line([(x * FINE, y * FINE) for x, y in piece], colour,
                            max(round(width * FINE), 1), joint="curve")

    def text(self, at: Point, text: str, size: float = 24, colour=INK, align: str = "l",
             bold: bool = False, halo: str | None = None) -> None:
        """One line, its capitals centred on at[1]. align : l, m or r"""
        wide = lettering.width_of(text, size * FINE)
        x = at[0] * FINE - {"l": 0.0, "m": wide / 2, "r": wide}[align]
        y = at[1] * FINE + lettering.CAP / 2 * size * FINE
        weight = max(round(size * FINE / 48), 1) if bold else 0
        if halo:
            lettering.write(self._draw, (x, y), text, size * FINE, halo, weight + 5 * FINE)
        lettering.write(self._draw, (x, y), text, size * FINE, colour, weight)

    def upright_text(self, at: Point, text: str, size: float = 24, colour=INK) -> None:
        """One line that reads upward, centred on a point."""
        wide, high = (int(v * FINE) + 4 for v in (lettering.width_of(text, size), size * 1.4))
        mask = Image.new("L", (wide, high), 0)
        lettering.write(ImageDraw.Draw(mask), (2, high / 2 + lettering.CAP / 2 * size * FINE), text,
                        size * FINE, 255)
        turned = mask.transpose(Image.Transpose.ROTATE_90)
        corner = (round(at[0] * FINE - high / 2), round(at[1] * FINE - wide / 2))
        self._image.paste(Image.new("RGB", turned.size, colour), corner, turned)

    def picture(self, at: Point, picture: Image.Image, size: tuple[float, float]) -> None:
        """Another picture, stretched to a size and laid with its top left corner at a point."""
        fine = picture.resize((round(size[0] * FINE), round(size[1] * FINE)),
                              Image.Resampling.BICUBIC)
        self._image.paste(fine, (round(at[0] * FINE), round(at[1] * FINE)))

    def dimension(self, start: Point, stop: Point, text: str, colour=INK, size: float = 24,
                  ends: float = 12, away: float = 22) -> None:
        """A line with strokes at both ends, and its length above or left of the middle."""
        length = hypot(stop[0] - start[0], stop[1] - start[1]) or 1.0
        across = (-(stop[1] - start[1]) / length, (stop[0] - start[0]) / length)
        self.line([start, stop], colour, 3)
        for x, y in (start, stop):
            self.line([(x - across[0] * ends, y - across[1] * ends),
                       (x + across[0] * ends, y + across[1] * ends)], colour, 3)
        middle = ((start[0] + stop[0]) / 2, (start[1] + stop[1]) / 2)
        if abs(across[1]) > abs(across[0]):
            self.text((middle[0], middle[1] - away), text, size, colour, "m", halo=PAPER)
        else:
            self.text((middle[0] - away, middle[1]), text, size, colour, "r", halo=PAPER)

    def ruler(self, at: Point, per_mm: float, length: int) -> tuple[Point, Point]:
        """A steel ruler with millimetres; the ends of its scale. length : millimetres"""
        x, y = at
        self.box((x - 14, y, x + length * per_mm + 52, y + 62), "#e3e6e2", EDGE, 2, 4)
        for mm in range(length + 1):
            tall = 30 if mm % 10 == 0 else 22 if mm % 5 == 0 else 14
            if per_mm < 5 and mm % 5:
                continue
            self.line([(x + mm * per_mm, y), (x + mm * per_mm, y + tall)], INK, 2)
            if mm % (10 if length >= 15 else 5) == 0:
                self.text((x + mm * per_mm, y + 45), str(mm), 20, INK, "m")
        self.text((x + length * per_mm + 18, y + 45), "mm", 18, INK_2, "l")
        return (x, y), (x + length * per_mm, y)


def _dashes(points: Sequence[Point], drawn: float, left_out: float):
    for (x0, y0), (x1, y1) in zip(points, points[1:], strict=False):
        length = hypot(x1 - x0, y1 - y0)
        at = 0.0
        while at < length:
            stop = min(at + drawn, length)
            yield [(x0 + (x1 - x0) * t / length, y0 + (y1 - y0) * t / length)
                   for t in (at, stop)]
            at += drawn + left_out
