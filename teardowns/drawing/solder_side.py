"""The board from below: solder joints, flat parts, and the distances across the barrier."""
from __future__ import annotations

from collections.abc import Iterator

from teardowns.drawing.board import EDGE, Board, Placed, board_of, half_gap, pads_of
from teardowns.drawing.colours import (
    ACCENT,
    COPPER,
    COPPER_2,
    INK,
    LACQUER,
    METAL_DARK,
    RESIDUE,
    SHEET,
    SLOT,
    SOLDER_MASK,
    TIN,
    with_alpha,
)
from teardowns.drawing.component_side import barrier, caption, ends, frame_of, part_marks, ruler
from teardowns.drawing.legend import draw_legend, entry_of
from teardowns.drawing.parts import Frame, draw_part
from teardowns.drawing.picture import Mark, Picture
from teardowns.drawing.sheet import Point, Sheet
from teardowns.drawing.words import Document, Row, name_of, recorded, with_doubt

FINGER = 0.5            # mm, half the width of the copper that ends a recorded distance
Shown = tuple[Row, Point, Point]        # a row, and its two ends in mm of the board


def solder_sides(document: Document) -> list[Picture]:
    """One picture, where parts or distances on the board were recorded."""
    board = board_of(document)
    if board is None or not (board.lanes or any(p.body.solder_side for p in board.parts)):
        return []
    return [_solder_side(document, board)]


def _solder_side(document: Document, board: Board) -> Picture:
    sheet = Sheet("Board, solder side", name_of(document))
    frame = frame_of(board, flipped=True)
    below = [placed for placed in board.parts if placed.body.solder_side]
    shown = [*_lanes(board), *_between_joints(document, board)]
    _copper(sheet, frame, board)
    _joints(sheet, frame, board)
    for placed in below:
        draw_part(sheet, frame, placed)
    barrier(sheet, frame, board)
    for number, one in enumerate(shown, start=1):
        _distance(sheet, frame, number, one)
    ends(sheet, frame, board)
    scale = ruler(sheet, frame, board)
    draw_legend(sheet, [*_parts_listed(below), *_distances_listed(shown)], "", 2)
    marks = (*part_marks(frame, below), *(_mark(frame, one) for one in shown))
    words = "; ".join(f"{row['place']}, {row['path'].replace('_', ' ')} {with_doubt(row)}"
                      for row, *_ in shown)
    return Picture("solder-side", "solder_side",
                   caption(document, board).replace("Component side with the parts",
                                                    "Solder side with the distances and parts"),
                   f"Board from below, mains at the left, output at the right. {words}."[:900],
                   sheet.finished(), marks, scale)


def _lanes(board: Board) -> Iterator[Shown]:
    for lane in board.lanes:
        half = lane.length / 2
        yield lane.row, (board.barrier - half, lane.y), (board.barrier + half, lane.y)


def _between_joints(document: Document, board: Board) -> Iterator[Shown]:
    """What was recorded between the pads of the transformer: their drawn distance is that one."""
    transformer = next((p for p in board.parts if p.body.kind == "transformer"), None)
    for row in recorded(document["insulation"]):
        if (transformer and row["place"].startswith("transformer pins")
                and row["path"] == "clearance"):
            y = transformer.y - transformer.body.along / 2 + 1.5
            half = board.pins / 2
            yield row, (transformer.x - half, y), (transformer.x + half, y)


def _copper(sheet: Sheet, frame: Frame, board: Board) -> None:
    """Both circuits as areas, and a finger of copper to each end of a recorded distance."""
    sheet.box(frame.box((0, 0, board.length, board.width)), SOLDER_MASK, INK, 3, 10)
    gap = half_gap(board)
    for left, right in ((EDGE, board.barrier - gap), (board.barrier + gap, board.length - EDGE)):
        sheet.box(frame.box((left, EDGE, right, board.width - EDGE)), with_alpha(COPPER, .45),
                  None, 0, 14)
    for lane in board.lanes:
        for side in (-1, 1):
            inner, outer = (board.barrier + side * reach for reach in (lane.length / 2, gap + .4))
            sheet.box(frame.box((inner, lane.y - FINGER, outer, lane.y + FINGER)), COPPER,
                      COPPER_2, 2)
    if board.slot:
        sheet.box(frame.box(board.slot), SLOT, INK, 2, 40)
    for lane in board.lanes:
        _what_lies_across(sheet, frame, board, lane.row, lane.y)
    if board.daughter:
        sheet.box(frame.box(board.daughter), None, INK, 2, 10)


def _what_lies_across(sheet: Sheet, frame: Frame, board: Board, row: Row, y: float) -> None:
    """Lacquer, residue, a groove or a ball of solder, where the row says so."""
    half = row["value"] * 1e3 / 2
    box = frame.box((board.barrier - half - .4, y - 1.1, board.barrier + half + .4, y + 1.1))
    if row.get("coated"):
        sheet.box(box, with_alpha(LACQUER, .7), None, 0, 12)
    if row.get("contaminated"):
        for index in range(9):
            x, dy = board.barrier + half * (index / 4 - 1) * .9, (index * 7 % 5 - 2) * .28
            sheet.disc(frame.at(x, y + dy), (.45 + index * 3 % 4 * .12) * frame.per_mm,
                       with_alpha(RESIDUE, .55))
    sizes = row["slot"]
    if row["shape"] in ("groove", "v_groove") and "width" in sizes:
        groove = sizes["width"] * 1e3 / 2
        sheet.box(frame.box((board.barrier - groove, y - 1.3, board.barrier + groove, y + 1.3)),
                  METAL_DARK, INK, 2)
    if "particle" in sizes:
        sheet.disc(frame.at(board.barrier + half * .3, y), sizes["particle"] * 500 * frame.per_mm,
                   TIN, INK, 2)


def _joints(sheet: Sheet, frame: Frame, board: Board) -> None:
    for placed in board.parts:
        for x, y, radius in pads_of(placed, board.pins):
            sheet.disc(frame.at(x, y), radius * frame.per_mm, TIN, METAL_DARK, 2)
            sheet.disc(frame.at(x, y), radius * .38 * frame.per_mm, "#aeb7bb", METAL_DARK, 1)


def _distance(sheet: Sheet, frame: Frame, number: int, shown: Shown) -> None:
    """The distance between its two ends, with the number of its line in the list."""
    start, stop = frame.at(*shown[1]), frame.at(*shown[2])
    sheet.line([start, stop], ACCENT, 4)
    for x, y in (start, stop):
        sheet.line([(x, y - 10), (x, y + 10)], ACCENT, 4)
    middle = (start[0] + (stop[0] - start[0]) * .28, start[1])
    sheet.disc(middle, 15, SHEET, ACCENT, 3)
    sheet.text(middle, str(number), 21, ACCENT, "m", bold=True)


def _mark(frame: Frame, shown: Shown) -> Mark:
    row = shown[0]
    label = f"{row['path'].replace('_', ' ')} {with_doubt(row)}, {row['place']}"
    return Mark("line", (frame.at(*shown[1]), frame.at(*shown[2])), label[:80],
                f"path/{row['key']}")


def _parts_listed(below: list[Placed]) -> list[tuple[str, str]]:
    rows = {one.body.row["key"]: one.body.row for one in below}
    return [entry_of(row) for row in rows.values()]


def _distances_listed(shown: list[Shown]) -> list[tuple[str, str]]:
    return [(str(number), f"{row['path'].replace('_', ' ')} {with_doubt(row)}: {row['place']}")
            for number, (row, *_) in enumerate(shown, start=1)]
