"""The case opened: the half with the board, the other half, and what was seen on opening."""
from __future__ import annotations

from teardowns.drawing.board import Board, board_of
from teardowns.drawing.colours import (
    BEIGE,
    BOARD,
    EDGE,
    INK,
    INK_2,
    METAL,
    PLASTIC,
    PLASTIC_LIGHT,
    SLOT,
    STEEL,
)
from teardowns.drawing.lettering import wrapped
from teardowns.drawing.parts import Frame, draw_part
from teardowns.drawing.picture import Mark, Picture
from teardowns.drawing.sheet import MARGIN, WIDTH, Box, Sheet
from teardowns.drawing.words import Document, Row, in_mm, measured, name_of, with_doubt
from teardowns.engine.quantities import QUANTITIES
from teardowns.reading.plug import plug_kind

AREA = (130.0, 180.0, 830.0, 720.0)     # the half with the board, walls included
BESIDE = 930.0                          # left edge of the other half
ROOM = 4.0                              # mm drawn between board and outside
SEEN = ("case_opens_by_hand", "case_clipped", "case_welded", "case_opened_by_drop",
        "case_is_metal", "case_flame_retardant", "case_plain_resin", "ballast_secured",
        "ballast_glued", "loose_metal", "loose_metal_bridges", "scorch_marks",
        "mains_cord_relief", "output_cord_relief", "test_finger_reaches_mains")
_LABELS = {code: quantity.label for code, quantity in QUANTITIES.items()}


def opened_cases(document: Document) -> list[Picture]:
    """One picture, where a board was seen."""
    board = board_of(document)
    return [] if board is None else [_opened(document, board)]


def _opened(document: Document, board: Board) -> Picture:
    sheet = Sheet("Opened", name_of(document))
    case, frame = _case_and_frame(board)
    wall = measured(document, "case_wall_thickness")
    thick = (wall["value"] * 1e3 if wall else 2.0) * frame.per_mm
    _half(sheet, case, thick)
    _mains_side(sheet, document, case)
    _board(sheet, frame, board)
    lid = (BESIDE, case[1], BESIDE + min(case[2] - case[0], WIDTH - MARGIN - BESIDE), case[3])
    _half(sheet, lid, thick)
    marks = [*_ballast(sheet, document, lid), *_wall(sheet, wall, lid, thick)]
    _lines(sheet, _seen(document))
    alt = ("Case opened: one half with the board, mains at the left, output at the right; the "
           "other half beside it. " + " ".join(_seen(document)))
    return Picture("opened", "opened", "The opened case. Not to the scale of the outside; "
                   "positions of parts are made up.", alt[:900], sheet.finished(),
                   tuple(marks))


def _case_and_frame(board: Board) -> tuple[Box, Frame]:
    left, top, right, bottom = AREA
    per_mm = min((right - left) / (board.length + 2 * ROOM),
                 (bottom - top) / (board.width + 2 * ROOM))
    wide, high = ((side + 2 * ROOM) * per_mm for side in (board.length, board.width))
    x, y = (left + right - wide) / 2, (top + bottom - high) / 2
    return (x, y, x + wide, y + high), Frame(x + ROOM * per_mm, y + ROOM * per_mm, per_mm)


def _half(sheet: Sheet, case: Box, thick: float) -> None:
    """A shell from inside: its wall, and posts in the corners."""
    left, top, right, bottom = case
    sheet.box(case, PLASTIC_LIGHT, INK, 3, 30)
    inner = (left + thick, top + thick, right - thick, bottom - thick)
    sheet.box(inner, "#d3d7d4", EDGE, 2, 20)
    for x in (inner[0] + 14, inner[2] - 14):
        for y in (inner[1] + 14, inner[3] - 14):
            sheet.disc((x, y), 9, PLASTIC_LIGHT, EDGE, 2)


def _mains_side(sheet: Sheet, document: Document, case: Box) -> None:
    """Pins at the mains end, their wires to the board; an inlet for a desktop unit."""
    plug, middle = plug_kind(document["unit"]["plug"]), (case[1] + case[3]) / 2
    reach = 0.0 if plug == "inlet" or not plug else 66.0
    for y in (middle - 60, middle + 60):
        if reach:
            sheet.box((case[0] - reach, y - 9, case[0] + 14, y + 9), METAL, INK, 2,
                      0 if plug.startswith("nema") else 9)
            sheet.box((case[0] - reach * .45, y - 9, case[0] + 4, y + 9),
                      PLASTIC if plug == "europlug" else METAL, INK, 2)
    if plug == "inlet":
        sheet.box((case[0] - 12, middle - 44, case[0] + 26, middle + 44), PLASTIC, INK, 2, 6)


def _board(sheet: Sheet, frame: Frame, board: Board) -> None:
    sheet.box(frame.box((0, 0, board.length, board.width)), BOARD, INK, 2, 6)
    if board.slot:
        sheet.box(frame.box(board.slot), SLOT, INK, 2, 20)
    if board.daughter:
        sheet.box(frame.box(board.daughter), BOARD, INK, 2, 6)
    for placed in board.parts:
        if not placed.body.solder_side:
            draw_part(sheet, frame, placed)


def _ballast(sheet: Sheet, document: Document, lid: Box):
    """A weight without function, in the half that it was found in or beside."""
    x, y = (lid[0] + lid[2]) / 2, (lid[1] + lid[3]) / 2
    for row in document["components"]:
        if row["role"] != "ballast" or row["state"] != "recorded":
            continue
        half, tall = (lid[2] - lid[0]) * .32, (lid[3] - lid[1]) * .26
        if "glue" in row["place"]:
            for dx, dy in ((-.7, -.9), (.6, -.9), (-.6, .9), (.7, .9)):
                sheet.disc((x + dx * half, y + dy * tall), 30, BEIGE, EDGE, 2)
        box = (x - half, y - tall, x + half, y + tall)
        sheet.box(box, STEEL, INK, 3, 3)
        sheet.text((x, y - 14), "ballast", 26, INK, "m", bold=True)
        sheet.text((x, y + 20), row["place"], 20, INK, "m")
        yield Mark("box", (box[:2], box[2:]), f"ballast, {row['place']}",
                   f"component/{row['key']}")


def _wall(sheet: Sheet, wall: Row | None, lid: Box, thick: float):
    """The wall's thickness, shown at the lower wall of the other half."""
    x = lid[2] - 90
    if wall is None:
        return
    ends = ((x, lid[3] - thick), (x, lid[3]))
    for point in ends:
        sheet.line([(x - 14, point[1]), (x + 14, point[1])], INK, 3)
    sheet.line([(x, lid[3]), (x, lid[3] + 26)], INK, 2)
    sheet.text((x, lid[3] + 44), f"wall {in_mm(wall['value'])}", 24, INK, "m")
    yield Mark("line", ends, f"case wall {with_doubt(wall)}", f"measurement/{wall['key']}")


def _seen(document: Document) -> list[str]:
    """What was looked for on opening, in the order of SEEN, then what was measured of the case."""
    said = []
    for code in SEEN:
        row = next((one for one in document["measurements"] if one["quantity"] == code), None)
        if row is None or row["state"] in ("not_looked", "not_readable"):
            continue
        found = row["state"] == "recorded" and row["value"]
        note = f" {row['note']}" if row["note"] else ""
        said.append(f"{_LABELS[code]}: {'yes' if found else 'looked for, not found'}.{note}")
    said += [f"{row['place'].capitalize()}: {row['path'].replace('_', ' ')} {with_doubt(row)}."
             for row in document["insulation"]
             if row["state"] == "recorded" and (row["barrier"] == "PRI_ENC"
                                                or row["site"] in ("case", "part"))]
    said += [row["note"] for row in document["components"]
             if row["role"] == "ballast" and row["note"]]
    return said


def _lines(sheet: Sheet, sentences: list[str]) -> None:
    """Sentences in two columns below the halves, none broken from one column to the other."""
    room = (WIDTH - 2 * MARGIN) / 2 - 30
    folded = [wrapped(sentence, 22, room) for sentence in sentences]
    total = sum(map(len, folded))
    columns: list[list[str]] = [[], []]
    for lines in folded:
        columns[bool(columns[1]) or len(columns[0]) >= total / 2].extend(lines)
    pitch = min(30.0, 270 / max(map(len, columns), default=1) if total else 30.0)
    for index, column in enumerate(columns):
        for place, line in enumerate(column):
            sheet.text((MARGIN + index * (room + 60), 850 + place * pitch), line,
                       22.0 if pitch > 27 else 18.0, INK_2)
