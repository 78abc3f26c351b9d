"""The rating plate, and other printed texts, letter by letter."""
from __future__ import annotations

from teardowns.drawing.colours import EDGE, INK, INK_2, PLASTIC, PLASTIC_LIGHT, RULE, WASH
from teardowns.drawing.lettering import width_of
from teardowns.drawing.picture import Mark, Picture
from teardowns.drawing.sheet import HEIGHT, MARGIN, WIDTH, Box, Sheet
from teardowns.drawing.words import Document, Row, name_of

LARGEST = 64.0
LEADING = 1.62
FOLD = 44               # characters, of a line on a box or in a listing
_SUBJECT = {"plate": "Rating plate", "packaging": "Print on the packaging",
            "listing": "Text of the listing", "manual": "Page of the manual"}
_PANEL: Box = (130, 170, WIDTH - 130, HEIGHT - 130)
_INSIDE = 70            # px between the panel's edge and its text


def plates(document: Document) -> list[Picture]:
    """One picture a printed text; what nobody looked at has none."""
    return [_plate(document, row) for row in document["printed_texts"]
            if row["state"] == "not_readable" or row["state"] == "recorded" and row["text"]]


def _plate(document: Document, row: Row) -> Picture:
    kind, is_plate = _SUBJECT[row["source"]], row["source"] == "plate"
    sheet = Sheet(kind, name_of(document))
    _ground(sheet, is_plate)
    readable = row["state"] == "recorded"
    if readable:
        marks = _letters(sheet, document, row, INK if not is_plate else "#f3f4f0")
    else:
        _worn(sheet)
        marks = ()
    stage = "plate" if is_plate else "as_received"
    caption = kind if readable else f"{kind}: the print has worn off and cannot be read"
    return Picture(f"print-{row['key']}", stage, caption, _alt(kind, row), sheet.finished(), marks)


def _alt(kind: str, row: Row) -> str:
    if row["state"] != "recorded":
        return f"{kind} with traces of letters that cannot be read."
    return f"{kind}. It reads: " + " / ".join(line for line in row["text"].split("\n") if line)


def _ground(sheet: Sheet, is_plate: bool) -> None:
    if not is_plate:
        sheet.box(_PANEL, WASH, RULE, 2, 6)
        return
    left, top, right, bottom = _PANEL
    sheet.box((left - 30, top - 22, right + 30, bottom + 22), PLASTIC, INK, 3, 46)
    sheet.box(_PANEL, "#2c3640", EDGE, 2, 10)


def _size(lines: list[str]) -> float:
    """Letters that fill the panel: by its widest line, and by its height."""
    left, top, right, bottom = _PANEL
    widest = max(width_of(line, 100.0) for line in lines) / 100.0
    return min(LARGEST, (right - left - 2 * _INSIDE) / max(widest, 1e-3),
               (bottom - top - 2 * _INSIDE) / (LEADING * len(lines)))


def _letters(sheet: Sheet, document: Document, row: Row, ink: str) -> tuple[Mark, ...]:
    lines = _lines(row["text"], 200 if row["source"] == "plate" else FOLD)
    size = _size([line for _, line in lines])
    high = size * LEADING
    top = (_PANEL[1] + _PANEL[3] - high * len(lines)) / 2 + high / 2
    rows = [top + high * index for index in range(len(lines))]
    for (_, line), y in zip(lines, rows, strict=True):
        sheet.text((_PANEL[0] + _INSIDE, y), line, size, ink)
    return tuple(_claim_marks(document, row, size, lines, rows))


def _lines(text: str, longest: int) -> list[tuple[int, str]]:
    """The lines and where each begins; those longer than a plate has are folded at a space."""
    lines, start = [], 0
    for line in text.split("\n"):
        while len(line) > longest and (cut := line.rfind(" ", 1, longest)) > 0:
            lines.append((start, line[:cut]))
            start, line = start + cut + 1, line[cut + 1:]
        lines.append((start, line))
        start += len(line) + 1
    return lines


def _claim_marks(document: Document, row: Row, size: float, lines: list[tuple[int, str]],
                 rows: list[float]):
    """A box round the words of each claim; of those that run on, the part in the first line."""
    for claim in document["claims"]:
        start, stop = claim.get("start"), claim.get("end")
        if claim.get("printed_text") != row["key"] or start is None or stop is None:
            continue
        (begins, line), y = max(pair for pair in zip(lines, rows, strict=True)
                                if pair[0][0] <= start)
        left = _PANEL[0] + _INSIDE + width_of(line[:start - begins], size)
        shown = line[start - begins:stop - begins]
        box = ((left - 5, y - 0.62 * size), (left + width_of(shown, size) + 5, y + 0.66 * size))
        yield Mark("box", box, claim["text"][:60], f"claim/{claim['key']}")


def _worn(sheet: Sheet) -> None:
    """Rows of rubbed spots where letters were, the same ones each time."""
    left, top, right, bottom = _PANEL
    for line in range(4):
        y = top + 150 + line * (bottom - top - 260) / 3
        x, step = left + 110.0, 0
        while x < right - 240 - line * 120:
            step = (step * 37 + 11 + line) % 53
            sheet.line([(x, y + step % 7 - 3), (x + 6 + step % 19, y + step % 5)],
                       (220, 224, 220, 34 + step), 7)
            x += 26 + step % 23
    sheet.text(((left + right) / 2, bottom - 44), "worn off, not readable", 30, PLASTIC_LIGHT, "m")
    sheet.text((MARGIN, HEIGHT - 28), "Nothing legible is left of the print.", 22, INK_2)
