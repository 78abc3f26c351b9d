"""Recorded temperatures over the board, with the legend of their colours."""
from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PIL import Image

from teardowns.drawing.board import Board, Box, Placed, board_of, boxes_meet
from teardowns.drawing.colours import EDGE, INK, INK_2, SHEET
from teardowns.drawing.component_side import ends, frame_of, ruler
from teardowns.drawing.lettering import width_of
from teardowns.drawing.parts import Frame
from teardowns.drawing.picture import Mark, Picture
from teardowns.drawing.sheet import MARGIN, WIDTH, Sheet
from teardowns.drawing.words import Document, Row, measured, name_of, value_of

# Where each reading belongs: roles of parts, the first one found.
_SPOTS = {"transformer_temperature": ("core", "transformer"),
          "switch_temperature": ("primary_switch", "primary_controller"),
          "output_rectifier_temperature": ("output_rectifier",),
          "bulk_capacitor_temperature": ("bulk_capacitor",)}
# Dark to light, so that the order survives in grey: temperature share, red, green, blue.
_TONES = np.array([(0.0, 38, 46, 84), (0.25, 88, 62, 122), (0.5, 168, 84, 112),
                   (0.75, 222, 138, 92), (1.0, 250, 226, 160)])
REACH = 7.0             # mm, over which the drawn warmth of a spot fades
FINE = 4                # points of the map per mm


@dataclass(frozen=True, slots=True)
class Spot:
    row: Row
    placed: Placed


def thermal_maps(document: Document) -> list[Picture]:
    """One picture, where a temperature inside was recorded."""
    board = board_of(document)
    spots = [] if board is None else _spots(document, board)
    return [_thermal(document, board, spots)] if board and spots else []


def _spots(document: Document, board: Board) -> list[Spot]:
    found = []
    for quantity, roles in _SPOTS.items():
        row = measured(document, quantity)
        placed = next((p for role in roles for p in board.parts
                       if p.body.row.get("role") == role), None)
        if row and placed:
            found.append(Spot(row, placed))
    return found


def _thermal(document: Document, board: Board, spots: list[Spot]) -> Picture:
    sheet = Sheet("Temperatures inside", _conditions(document))
    frame = frame_of(board)
    low, high = _range(document, spots)
    field = _field(board, spots, low)
    left, top = frame.at(0, 0)
    sheet.picture((left, top), _coloured(field, low, high),
                  (board.length * frame.per_mm, board.width * frame.per_mm))
    for placed in board.parts:
        sheet.box(frame.box(placed.box), None, (255, 255, 255, 70), 2, 6)
    sheet.box(frame.box((0, 0, board.length, board.width)), None, INK, 3)
    marks = _readings(sheet, frame, spots)
    ends(sheet, frame, board)
    scale = ruler(sheet, frame, board)
    _legend(sheet, low, high)
    _notes(sheet, document, spots)
    words = "; ".join(f"{_place(s)} {s.row['value']:.0f} °C" for s in spots)
    return Picture("thermal", "thermal",
                   "Recorded temperatures on the board. Only the numbers were measured; the "
                   "shades between them are drawn.",
                   f"Board in shades from dark, cool, to light, hot. {words}.", sheet.finished(),
                   marks, scale)


def _conditions(document: Document) -> str:
    load = value_of(document, "temperature_load")
    ambient = value_of(document, "ambient_temperature")
    parts = [name_of(document), *([f"at {load:g} W"] if load else []),
             *([f"air {ambient:g} °C"] if ambient is not None else [])]
    return ", ".join(parts)


def _range(document: Document, spots: list[Spot]) -> tuple[float, float]:
    """The legend's ends: whole tens round the air and the hottest spot."""
    low = value_of(document, "ambient_temperature")
    low = min(spot.row["value"] for spot in spots) - 20 if low is None else low
    high = max(spot.row["value"] for spot in spots)
    return 10 * np.floor(low / 10), 10 * np.ceil((high + 1) / 10)


def _field(board: Board, spots: list[Spot], low: float):
    """(y, x) °C: the readings, the nearer the heavier, cooling down towards the board's edges."""
    y, x = np.mgrid[0:round(board.width * FINE), 0:round(board.length * FINE)] / FINE
    total, weights, warmth = np.zeros_like(x), np.zeros_like(x), np.zeros_like(x)
    for spot in spots:
        half = max(spot.placed.body.across, spot.placed.body.along) / 2
        away = np.hypot(x - spot.placed.x, y - spot.placed.y)
        weight = 1 / (away ** 2 + 4.0) ** 1.5
        total += weight * (spot.row["value"] - low)
        weights += weight
        # A sum of high powers is a maximum without creases.
        warmth += np.exp(-(np.maximum(away - half * .6, 0) / (2 * REACH)) ** 2) ** 4
    floor = min(spot.row["value"] - low for spot in spots) * 0.55
    return low + floor + (total / weights - floor) * np.minimum(warmth, 1.0) ** .25


def _coloured(field, low: float, high: float) -> Image.Image:
    share = np.clip((field - low) / (high - low), 0, 1)
    tones = [np.interp(share, _TONES[:, 0], _TONES[:, band]) for band in (1, 2, 3)]
    return Image.fromarray(np.stack(tones, axis=-1).round().astype(np.uint8))


def _place(spot: Spot) -> str:
    words = spot.row["quantity"].removesuffix("_temperature").replace("_", " ")
    return f"{spot.placed.body.name} {words}".strip()


def _readings(sheet: Sheet, frame: Frame, spots: list[Spot]) -> tuple[Mark, ...]:
    """A cross at each part, and its reading on a small plate that hides no other."""
    places = [frame.at(spot.placed.x, spot.placed.y) for spot in spots]
    for x, y in places:
        for dx, dy in ((1, 0), (0, 1)):
            for colour, wide in ((SHEET, 7), (INK, 3)):
                sheet.line([(x - 16 * dx, y - 16 * dy), (x + 16 * dx, y + 16 * dy)], colour, wide)
    taken = [(x - 18, y - 18, x + 18, y + 18) for x, y in places]
    for spot, at in zip(spots, places, strict=True):
        taken.append(_plate(sheet, spot, at, taken))
    return tuple(Mark("point", (at,), f"{_place(spot)} {spot.row['value']:.0f} °C",
                      f"measurement/{spot.row['key']}")
                 for spot, at in zip(spots, places, strict=True))


def _plate(sheet: Sheet, spot: Spot, at: tuple[float, float], taken: list[Box]) -> Box:
    words = f"{spot.placed.body.name} {spot.row['value']:.0f} °C".strip()
    wide, high = width_of(words, 26) + 24, 36.0
    x, y = at
    spots = [(x + 22, y - 44), (x + 22, y + 8), (x - 22 - wide, y - 44), (x - 22 - wide, y + 8),
             (x - wide / 2, y - 62), (x - wide / 2, y + 26)]
    boxes = [(left, top, left + wide, top + high) for left, top in spots
             if MARGIN < left < WIDTH - MARGIN - wide]
    box = next((one for one in boxes if not any(boxes_meet(one, other, 3.0) for other in taken)),
               boxes[0])
    sheet.box(box, SHEET, INK, 2, 4)
    sheet.text((box[0] + 12, (box[1] + box[3]) / 2), words, 26, INK, bold=True)
    return box


def _legend(sheet: Sheet, low: float, high: float) -> None:
    """A strip of the shades with their temperatures."""
    left, right, top, tall = 420.0, WIDTH - 420.0, 900.0, 40.0
    strip = _coloured(np.linspace(low, high, 256)[None, :].repeat(2, axis=0), low, high)
    sheet.picture((left, top), strip, (right - left, tall))
    sheet.box((left, top, right, top + tall), None, INK, 2)
    step = 10 if high - low <= 90 else 20
    for degrees in range(int(low), int(high) + 1, step):
        x = left + (degrees - low) / (high - low) * (right - left)
        sheet.line([(x, top + tall), (x, top + tall + 12)], EDGE, 2)
        sheet.text((x, top + tall + 30), f"{degrees}", 22, INK, "m")
    sheet.text((right + 30, top + tall / 2), "°C", 24, INK)


def _notes(sheet: Sheet, document: Document, spots: list[Spot]) -> None:
    case = measured(document, "case_temperature")
    lines = [f"Hottest place of the case: {case['value']:.0f} °C"
             + (f" ({case['instrument']})" if case["instrument"] else "")] if case else []
    tools = dict.fromkeys(spot.row["instrument"] for spot in spots if spot.row["instrument"])
    lines += [f"Inside: {', '.join(tools)}."] if tools else []
    lines += ["Crosses are readings; the shades between them are drawn, not measured."]
    for index, line in enumerate(lines):
        sheet.text((WIDTH / 2, 1020 + 36 * index), line, 24, INK_2, "m")
