"""The list below a board: what each designator is, and what was looked for and not found."""
from __future__ import annotations

from collections.abc import Sequence

from teardowns.drawing.colours import INK, INK_2
from teardowns.drawing.lettering import fitting_size, width_of
from teardowns.drawing.sheet import HEIGHT, MARGIN, WIDTH, Sheet
from teardowns.drawing.words import CONNECTORS, ROLES, Document, Row

LINE = 33.0
TOP, BOTTOM = 896.0, HEIGHT - 66.0
COLUMNS = 3


def entry_of(row: Row) -> tuple[str, str]:
    """Designator, and what it is with its marking."""
    if "connector" in row:
        return row["label"], CONNECTORS[row["connector"]]
    name, words = row["designator"], ROLES[row["role"]]
    if row["state"] == "not_readable":
        return name, f"{words}, marking not readable"
    return name, f"{words}  {row['marking']}".strip()


def not_found(document: Document) -> str:
    """ "Looked for and not found: …", or nothing."""
    missing = [ROLES[row["role"]] for row in document["components"]
               if row["state"] == "not_found"]
    return "Looked for and not found: " + ", ".join(missing) if missing else ""


def draw_legend(sheet: Sheet, entries: Sequence[tuple[str, str]], last: str,
                columns: int = COLUMNS) -> None:
    """Entries in columns, and one line below them."""
    rows = -(-len(entries) // columns)
    lines = int((BOTTOM - TOP) / LINE) - bool(last)
    pitch = min(LINE, (BOTTOM - TOP - LINE * bool(last)) / max(rows, 1))
    rows = max(rows, 1) if rows > lines else max(-(-len(entries) // columns), 1)
    wide = (WIDTH - 2 * MARGIN) / columns
    for index, (name, words) in enumerate(entries):
        x, y = MARGIN + index // rows * wide, TOP + index % rows * pitch
        size = 21.0 if pitch >= 28 else 18.0
        named = max(width_of(name, size), 44.0) + 12 if name else 0.0
        sheet.text((x, y), name, size, INK, "l", bold=True)
        sheet.text((x + named, y), words, fitting_size(words, wide - named - 18, size, 12), INK)
    if last:
        size = fitting_size(last, WIDTH - 2 * MARGIN, 21.0, 13)
        sheet.text((MARGIN, TOP + rows * pitch + 4), last, size, INK_2)
