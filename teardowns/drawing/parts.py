"""Parts as they look from above: one function a kind, all of one signature."""
from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from teardowns.drawing.board import Box, Placed
from teardowns.drawing.colours import (
    BEIGE,
    BOBBIN,
    CAN,
    CAN_STRIPE,
    DISC,
    EDGE,
    ENAMEL,
    FERRITE,
    INK,
    METAL,
    METAL_DARK,
    PLASTIC,
    POLYMER,
    STEEL,
    TAPE,
    TIN,
    WASH,
)
from teardowns.drawing.lettering import fitting_size, width_of
from teardowns.drawing.sheet import Point, Sheet

LIGHT = "#f3f4f0"


@dataclass(frozen=True, slots=True)
class Frame:
    """Millimetres of a board → pixels of a sheet; flipped: seen from the solder side."""

    left: float
    top: float
    per_mm: float
    width: float = 0.0      # mm, of a board that is flipped about its long axis
    flipped: bool = False

    def at(self, x: float, y: float) -> Point:
        return self.left + x * self.per_mm, self.top + (
            self.width - y if self.flipped else y) * self.per_mm

    def box(self, box: Box) -> Box:
        (left, top), (right, bottom) = self.at(*box[:2]), self.at(*box[2:])
        return left, min(top, bottom), right, max(top, bottom)


def draw_part(sheet: Sheet, frame: Frame, placed: Placed, named: bool = True) -> None:
    """One piece with its designator; named: False where there is no room for words."""
    box = frame.box(placed.box)
    _KINDS.get(placed.body.kind, _block)(sheet, box, frame.per_mm)
    if named and placed.body.name:
        _name(sheet, box, placed)


def _name(sheet: Sheet, box: Box, placed: Placed) -> None:
    """The designator on the body; upright where the body is slim."""
    wide, high = box[2] - box[0], box[3] - box[1]
    dark = placed.body.kind in _DARK
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    turned = high > 1.6 * wide and not placed.body.kind.startswith("usb")
    room, across = (high, wide) if turned else (wide, high)
    size = fitting_size(placed.body.name, room * 0.86, min(26.0, across * 0.62), 13.0)
    colour = LIGHT if dark else INK
    if width_of(placed.body.name, size) > room:
        sheet.text((middle[0], box[3] + 14), placed.body.name, 18, INK, "m")
    elif turned:
        sheet.upright_text(middle, placed.body.name, size, colour)
    else:
        sheet.text(middle, placed.body.name, size, colour, "m")


def _middle(box: Box) -> Point:
    return (box[0] + box[2]) / 2, (box[1] + box[3]) / 2


def _can(sheet: Sheet, box: Box, per_mm: float, top: str = CAN) -> None:
    radius = (box[2] - box[0]) / 2
    sheet.disc(_middle(box), radius, PLASTIC, INK, 2)
    sheet.slice(_middle(box), radius - 2, 55, 125, CAN_STRIPE)
    sheet.disc(_middle(box), radius * 0.84, top, EDGE, 2)
    x, y = _middle(box)
    for dx, dy in ((1, 1), (1, -1)):        # the vent that is pressed into the lid
        sheet.line([(x - dx * radius * .55, y - dy * radius * .55),
                    (x + dx * radius * .55, y + dy * radius * .55)], METAL_DARK, 1)


def _polymer_can(sheet: Sheet, box: Box, per_mm: float) -> None:
    radius = (box[2] - box[0]) / 2
    sheet.disc(_middle(box), radius, POLYMER, INK, 2)
    sheet.slice(_middle(box), radius - 2, 40, 140, STEEL)
    sheet.disc(_middle(box), radius - 4, None, EDGE, 1)


def _lying_can(sheet: Sheet, box: Box, per_mm: float) -> None:
    sheet.box(box, PLASTIC, INK, 2, 10)
    left, top, right, bottom = box
    if right - left > bottom - top:
        sheet.box((left + 6, bottom - (bottom - top) * .24, right - 6, bottom - 6), CAN_STRIPE)
        sheet.box((left, top, left + 1.4 * per_mm, bottom), CAN, INK, 2, 6)
    else:
        sheet.box((right - (right - left) * .24, top + 6, right - 6, bottom - 6), CAN_STRIPE)
        sheet.box((left, top, right, top + 1.4 * per_mm), CAN, INK, 2, 6)


def _transformer(sheet: Sheet, box: Box, per_mm: float) -> None:
    """Bobbin, windings under tape on both sides of the core, the core over all."""
    left, top, right, bottom = box
    sheet.box((left, top + 1.0 * per_mm, right, bottom - 1.0 * per_mm), BOBBIN, INK, 2, 6)
    sheet.box((left + .9 * per_mm, top + 2 * per_mm, right - .9 * per_mm, bottom - 2 * per_mm),
              TAPE, EDGE, 2, 14)
    depth = (right - left) * 0.36
    x = (left + right) / 2
    sheet.box((x - depth / 2, top, x + depth / 2, bottom), FERRITE, INK, 2, 4)


def _film(sheet: Sheet, box: Box, per_mm: float) -> None:
    sheet.box(box, TAPE, INK, 2, 6)
    left, top, right, bottom = box
    sheet.box((left + 6, top + 6, right - 6, bottom - 6), None, BEIGE, 2, 4)


def _disc(sheet: Sheet, box: Box, per_mm: float) -> None:
    left, top, right, bottom = box
    y = (top + bottom) / 2
    sheet.line([(left - 1.2 * per_mm, y), (right + 1.2 * per_mm, y)], METAL_DARK, .7 * per_mm)
    sheet.box(box, DISC, INK, 2, (bottom - top) / 2)


def _resistor(sheet: Sheet, box: Box, per_mm: float) -> None:
    left, top, right, bottom = box
    flat = right - left >= bottom - top
    x, y = _middle(box)
    if flat:
        sheet.line([(left, y), (right, y)], METAL_DARK, .7 * per_mm)
        sheet.box((left + .9 * per_mm, top, right - .9 * per_mm, bottom), DISC, INK, 2, 12)
    else:
        sheet.line([(x, top), (x, bottom)], METAL_DARK, .7 * per_mm)
        sheet.box((left, top + .9 * per_mm, right, bottom - .9 * per_mm), DISC, INK, 2, 12)


def _diode(sheet: Sheet, box: Box, per_mm: float) -> None:
    left, top, right, bottom = box
    flat = right - left >= bottom - top
    x, y = _middle(box)
    sheet.line([(left, y), (right, y)] if flat else [(x, top), (x, bottom)], METAL_DARK,
               .6 * per_mm)
    inset = .6 * per_mm
    body = (left + inset, top, right - inset, bottom) if flat else (
        left, top + inset, right, bottom - inset)
    sheet.box(body, PLASTIC, INK, 2, 12)
    band = (body[2] - .6 * per_mm, top, body[2] - .1 * per_mm, bottom) if flat else (
        left, body[3] - .6 * per_mm, right, body[3] - .1 * per_mm)
    sheet.box(band, METAL)


def _chip(sheet: Sheet, box: Box, per_mm: float) -> None:
    left, top, right, bottom = box
    inset = min(.7 * per_mm, (right - left) * .14)
    count = max(int((bottom - top) / per_mm / 1.27), 2)
    step = (bottom - top) / count
    for index in range(count):
        y = top + step * (index + .5)
        sheet.box((left, y - step * .2, right, y + step * .2), TIN, EDGE, 1)
    sheet.box((left + inset, top, right - inset, bottom), PLASTIC, INK, 2, 4)
    sheet.disc((left + inset + .45 * per_mm, top + .5 * per_mm), .18 * per_mm, METAL_DARK)


def _opto(sheet: Sheet, box: Box, per_mm: float) -> None:
    left, top, right, bottom = box
    y = (top + bottom) / 2
    for up in (-1.27, 1.27):
        sheet.box((left - 1.4 * per_mm, y + (up - .35) * per_mm, right + 1.4 * per_mm,
                   y + (up + .35) * per_mm), TIN, EDGE, 1)
    sheet.box(box, PLASTIC, INK, 2, 4)
    sheet.disc((left + .8 * per_mm, top + .8 * per_mm), .3 * per_mm, METAL_DARK)


def _bridge(sheet: Sheet, box: Box, per_mm: float) -> None:
    sheet.box(box, PLASTIC, INK, 2, 6)
    left, top, right, bottom = box
    for x, y, sign in ((left + 14, top + 16, "~"), (right - 14, top + 16, "~"),
                       (left + 14, bottom - 16, "+"), (right - 14, bottom - 16, "−")):
        sheet.text((x, y), sign, 18, LIGHT, "m")


def _ring(sheet: Sheet, box: Box, per_mm: float) -> None:
    """A choke on a ring that stands on the board: its windings from above."""
    sheet.box(box, FERRITE, INK, 2, 14)
    left, top, right, bottom = box
    step = .9 * per_mm
    y = top + step
    while y < bottom - step / 2:
        if abs(y - (top + bottom) / 2) > 1.6 * per_mm:
            sheet.line([(left - 2, y), (right + 2, y)], ENAMEL, .6 * per_mm)
        y += step


def _coil(sheet: Sheet, box: Box, per_mm: float) -> None:
    sheet.box(box, FERRITE, INK, 2, 10)
    sheet.disc(_middle(box), (box[2] - box[0]) * .36, PLASTIC, EDGE, 2)


def _tab(sheet: Sheet, box: Box, per_mm: float) -> None:
    """A transistor that stands, its metal or flat back towards the edge."""
    left, top, right, bottom = box
    sheet.box(box, PLASTIC, INK, 2, 6)
    if right - left < bottom - top:
        sheet.box((left, top, left + 1.2 * per_mm, bottom), METAL, INK, 2)
    else:
        sheet.box((left, top, right, top + 1.2 * per_mm), METAL, INK, 2)


def _fuse(sheet: Sheet, box: Box, per_mm: float) -> None:
    sheet.box(box, BEIGE, INK, 2, 8)


def _chip_resistor(sheet: Sheet, box: Box, per_mm: float) -> None:
    left, top, right, bottom = box
    sheet.box(box, TIN, INK, 2)
    sheet.box((left + .5 * per_mm, top, right - .5 * per_mm, bottom), PLASTIC, INK, 1)


def _diode_chip(sheet: Sheet, box: Box, per_mm: float) -> None:
    left, top, right, bottom = box
    y = (top + bottom) / 2
    sheet.box((left, y - .8 * per_mm, right, y + .8 * per_mm), TIN, EDGE, 1)
    sheet.box((left + .6 * per_mm, top, right - .6 * per_mm, bottom), PLASTIC, INK, 2, 4)
    sheet.box((right - 1.4 * per_mm, top, right - .9 * per_mm, bottom), METAL)


def _usb(sheet: Sheet, box: Box, per_mm: float) -> None:
    left, top, right, bottom = box
    sheet.box(box, METAL, INK, 2, 6)
    for y in (top + (bottom - top) * .22, top + (bottom - top) * .78):
        sheet.box((left + (right - left) * .45, y - .35 * per_mm, left + (right - left) * .72,
                   y + .35 * per_mm), METAL_DARK, None, 0, 4)


def _cord(sheet: Sheet, box: Box, per_mm: float) -> None:
    """Two wires to the cord that leaves the case."""
    left, top, right, bottom = box
    for y in (top + (bottom - top) * .3, top + (bottom - top) * .7):
        sheet.line([(left + .6 * per_mm, y), (right, y)], PLASTIC, 1.1 * per_mm)
        sheet.disc((left + .6 * per_mm, y), .9 * per_mm, TIN, EDGE, 2)
    sheet.box((right - .6 * per_mm, top + 4, right + 2.2 * per_mm, bottom - 4), PLASTIC, INK, 2, 8)


def _block(sheet: Sheet, box: Box, per_mm: float) -> None:
    sheet.box(box, WASH, INK, 2, 4)


_KINDS: dict[str, Callable[[Sheet, Box, float], None]] = {
    "can": _can, "can_polymer": _polymer_can, "lying_can": _lying_can,
    "lying_can_polymer": _lying_can, "transformer": _transformer, "film": _film, "disc": _disc,
    "resistor": _resistor, "diode": _diode, "chip": _chip, "opto": _opto, "bridge": _bridge,
    "ring": _ring, "coil": _coil, "tab": _tab, "fuse": _fuse, "chip_resistor": _chip_resistor,
    "diode_chip": _diode_chip, "usb_a": _usb, "usb_c": _usb, "micro_b": _usb, "cord": _cord,
}
_DARK = {"lying_can", "lying_can_polymer", "transformer", "diode", "chip", "opto", "bridge",
         "ring", "coil", "tab", "chip_resistor", "diode_chip", "cord"}
