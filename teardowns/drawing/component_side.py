"""The board from above: the recorded parts, the barrier, a ruler."""
from __future__ import annotations

from teardowns.drawing.board import Board, Placed, board_of, fits_the_case
from teardowns.drawing.colours import ACCENT, BOARD, EDGE, INK, INK_2, SLOT
from teardowns.drawing.legend import draw_legend, entry_of, not_found
from teardowns.drawing.parts import Frame, draw_part
from teardowns.drawing.picture import Mark, Picture, Scale
from teardowns.drawing.sheet import WIDTH, Sheet
from teardowns.drawing.words import Document, name_of

AREA = (150.0, 150.0, WIDTH - 130.0, 765.0)     # where a board may lie
RULER_TOP = 795.0
RULER_U = 5e-5          # m, standard: drawn to a fraction of a pixel; this is the click's share


def component_sides(document: Document) -> list[Picture]:
    """One picture, where parts were recorded."""
    board = board_of(document)
    return [] if board is None else [_component_side(document, board)]


def _component_side(document: Document, board: Board) -> Picture:
    sheet = Sheet("Board, component side", name_of(document))
    frame = frame_of(board)
    ground(sheet, frame, board, BOARD)
    barrier(sheet, frame, board)
    above = [placed for placed in board.parts if not placed.body.solder_side]
    for placed in sorted(above, key=lambda one: one.body.kind == "disc"):
        draw_part(sheet, frame, placed)
    ends(sheet, frame, board)
    scale = ruler(sheet, frame, board)
    _legend(sheet, document, above)
    return Picture("component-side", "component_side", caption(document, board),
                   _alt(document, above), sheet.finished(), part_marks(frame, above), scale)


def frame_of(board: Board, flipped: bool = False) -> Frame:
    """The board as large as the area allows, in its middle."""
    left, top, right, bottom = AREA
    per_mm = min((right - left) / board.length, (bottom - top) / board.width)
    x = (left + right - board.length * per_mm) / 2
    y = (top + bottom - board.width * per_mm) / 2
    return Frame(x, y, per_mm, board.width, flipped)


def ground(sheet: Sheet, frame: Frame, board: Board, colour: str) -> None:
    """The bare board, its slot, the board at the ports."""
    sheet.box(frame.box((0, 0, board.length, board.width)), colour, INK, 3, 10)
    if board.slot:
        sheet.box(frame.box(board.slot), SLOT, INK, 2, 40)
    if board.daughter:
        edge = frame.box(board.daughter)
        sheet.box(edge, colour, INK, 3, 10)


def barrier(sheet: Sheet, frame: Frame, board: Board) -> None:
    """The dashed line between both circuits, where something was recorded across it."""
    if not board.lanes and not any(p.body.zone == "barrier" for p in board.parts):
        return
    top, bottom = frame.at(board.barrier, 0), frame.at(board.barrier, board.width)
    high, low = sorted((top[1], bottom[1]))
    sheet.line([(top[0], high - 14), (top[0], low + 8)], ACCENT, 3, (14, 10))
    sheet.text((top[0], high - 28), "barrier", 20, ACCENT, "m")


def ends(sheet: Sheet, frame: Frame, board: Board) -> None:
    """Which end leads where."""
    left, right = frame.at(0, 0)[0], frame.at(board.length, 0)[0]
    middle = frame.top + board.width * frame.per_mm / 2
    sheet.upright_text((left - 34, middle), "mains", 24, INK_2)
    for share in (-.25, .25):
        y = middle + share * board.width * frame.per_mm
        sheet.line([(left - 52, y), (left, y)], EDGE, 7)
    sheet.upright_text((min(right + 62, WIDTH - 24), middle), "output", 24, INK_2)


def ruler(sheet: Sheet, frame: Frame, board: Board) -> Scale:
    """A ruler below the board, and the scale that its ends give."""
    length = max(int(board.length // 10) * 10, 10)
    x = frame.left + (board.length - length) * frame.per_mm / 2
    points = sheet.ruler((x, RULER_TOP), frame.per_mm, length)
    return Scale(points, (length / 1e3,), RULER_U, "the board")


def part_marks(frame: Frame, parts: list[Placed]) -> tuple[Mark, ...]:
    """A box round every piece."""
    marks = []
    for placed in parts:
        row, (left, top, right, bottom) = placed.body.row, frame.box(placed.box)
        kind = "port" if "connector" in row else "component"
        name = " ".join(part for part in (placed.body.name, entry_of(row)[1]) if part)
        marks.append(Mark("box", ((left, top), (right, bottom)), name[:80],
                          f"{kind}/{row['key']}"))
    return tuple(marks)


def caption(document: Document, board: Board) -> str:
    """What the picture is to scale for, and what is made up."""
    said = ("Positions are made up, and so are sizes that nobody measured: "
            "they are the usual ones of such parts.")
    if not fits_the_case(document, board):
        said += " Laid out flat; inside the case parts stand closer, or on a second board."
    return f"Component side with the parts that were recorded. {said}"


def _alt(document: Document, above: list[Placed]) -> str:
    names = dict.fromkeys(" ".join(filter(None, entry_of(one.body.row))) for one in above)
    return "Board from above, mains at the left, output at the right: " + "; ".join(names) + "."


def _legend(sheet: Sheet, document: Document, above: list[Placed]) -> None:
    rows = {(("connector" in one.body.row), one.body.row["key"]): one.body.row for one in above}
    draw_legend(sheet, [entry_of(row) for row in rows.values()], not_found(document))


