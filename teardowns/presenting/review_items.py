"""Each row of evidence as an item of a review: what it says, what shows it, what was decided."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from teardowns.engine.quantities import QUANTITIES
from teardowns.figures.photo_region import photo_region
from teardowns.models import PrintedText
from teardowns.models.evidence import Valued
from teardowns.reviewing.progress import RowProgress

from . import evidence_cells as cells
from .cell_text import cell_text
from .evidence_tables import PROVENANCE, Cell, evidence_tables
from .links import anchor
from .photo_sheet import drawn
from .recording_results import span_text
from .review_words import others_told, reading_told, rests_told, word_told

PRINTED = ("printedtext", "Printed texts")
HIDDEN = "hidden until you have measured"
NOTHING_SHOWS = "No photo and no log shows it."
NO_PLACE = "Its photo, on which no place is marked for it."


@dataclass(frozen=True, slots=True)
class Shown:
    """What shows a row: a part of a photo, or words for why there is none."""

    words: str
    picture: SafeString | None = None
    address: str = ""                  # of the photo's page
    log: str = ""                      # address of the place in a log
    log_words: str = ""


@dataclass(frozen=True, slots=True)
class Item:
    anchor: str
    ref: str
    version: int
    name: SafeString | str
    cells: list[Cell]
    printed: str                       # the text itself, of a printed text
    shown: Shown
    rests: list[str]
    state: SafeString                  # the mark of the review's state
    entered: str                       # by whom and when
    is_asked: bool
    is_own: bool                       # the reviewer entered it
    decision: str                      # the reviewer's own last word, or ""
    reason: str
    mine: str                          # in words, or ""
    others: list[str]                  # of other reviewers; told once the reviewer has decided
    own_reading: str                   # a length that the reviewer read off the photo, blind
    measure: str                       # address of a page that asks for a second reading, or ""

    @property
    def is_open(self) -> bool:
        """Whether this reviewer still has it to decide."""
        return self.is_asked and not self.is_own and not self.decision


@dataclass(frozen=True, slots=True)
class ItemKind:
    name: str
    title: str
    items: list[Item]
    count: str                         # "3 of 7"

    @property
    def anchor(self) -> str:
        return f"kind-{self.name}"


@dataclass(frozen=True, slots=True)
class Sources:
    """All that an item is made of, besides its row."""

    unit: Any
    reviewer: int
    progress: Mapping[str, RowProgress]       # by ref
    said: Mapping[str, Sequence[Any]]         # by ref, with names and second readings
    photos: Mapping[str, Any]                 # by key, see services/review_rows.py
    rests: Mapping[str, Sequence[Mapping[str, Any]]]
    hide_values: bool = False


def item_kinds(rows: Mapping[str, Sequence[Any]], sources: Sources) -> list[ItemKind]:
    """Every row there is, kind by kind; those without rows are left out."""
    found = []
    if texts := rows[PRINTED[0]]:
        found.append(_kind(*PRINTED, [_text_item(row, sources) for row in texts]))
    for table in evidence_tables(rows):
        name = table.anchor.removeprefix("evidence-")
        items = [_item(row, shown.name, _cells(row, shown, sources), sources)
                 for row, shown in zip(rows[name], table.rows, strict=True)]
        found.append(_kind(name, table.title, items))
    return found


def _kind(name, title, items):
    asked = [item for item in items if item.is_asked and not item.is_own]
    decided = sum(bool(item.decision) for item in asked)
    return ItemKind(name, title, items, f"{decided} of {len(asked)}" if asked else "settled")


def _cells(row, shown, sources):
    """What the record prints of it, without the columns that an item tells by itself."""
    found = [cell for cell in shown.cells if cell.label and cell.label not in PROVENANCE]
    if sources.hide_values and holds_a_number(row) and not _own_word(row, sources):
        found = [Cell(cell.label, mark_safe(HIDDEN)) if cell.label == "Value" else cell
                 for cell in found]
    told = row.state == "recorded" or cells.has_limit(row)
    how = [row.get_how_display()] if told else []
    return [*found, *(_plain("How obtained", text) for text in how),
            *(_plain("Note", text) for text in [AsWritten(row.note)] if text)]


def _plain(label, text):
    return Cell(label, cell_text(text))


def _text_item(row: PrintedText, sources):
    looked = cells.looked(row)
    found = [Cell("Looked for", looked)] if looked else []
    found += [_plain("Note", AsWritten(row.note))] if row.note else []
    return _item(row, f"Printed on the {row.get_source_display()}", found, sources, row.text)


def _item(row, name, found, sources, printed=""):
    came = sources.progress[row.ref]
    own = _own_word(row, sources)
    others = [each for each in sources.said.get(row.ref, ()) if _is_others(each, row, sources)]
    return Item(
        anchor=anchor(row.ref), ref=row.ref, version=row.version, name=name, cells=found,
        printed=printed, shown=_shown(row, sources), state=cells.review(row),
        rests=rests_told(sources.rests.get(row.ref, ())), entered=cells.entered(row),
        is_asked=came.is_asked, is_own=row.author_id == sources.reviewer,
        decision=own.word.decision if own else "", reason=own.word.reason if own else "",
        mine=word_told(own, row, "You") if own else "",
        others=others_told(others, row) if own or not came.is_asked else [],
        own_reading=_own_reading(row), measure=_measure(row, sources))


def _own_word(row, sources):
    """The reviewer's last word on the row as it stands."""
    mine = [each for each in sources.said.get(row.ref, ())
            if each.word.reviewer == sources.reviewer and each.word.version == row.version]
    return mine[-1] if mine else None


def _is_others(said, row, sources):
    came = sources.progress[row.ref]
    return (said.word.reviewer != sources.reviewer
            and came.words.get(said.word.reviewer) == said.word)


def _shown(row, sources):
    log = _log(row)
    marked = [(photo, body) for photo in sources.photos.values() for ref, body in photo.marks
              if ref == row.ref]
    if marked:
        photo, body = marked[0]
        return Shown("", _region(sources.unit, row, photo, drawn_mark(body)),
                     _photo_page(sources.unit, photo, row), *log)
    photo = row.photo and sources.photos.get(row.photo.key)
    if photo:
        return Shown(NO_PLACE, _region(sources.unit, row, photo, None),
                     _photo_page(sources.unit, photo, row), *log)
    return Shown("" if log[0] else NOTHING_SHOWS, None, "", *log)


def drawn_mark(body):
    return drawn(_Stored(body))


@dataclass(frozen=True, slots=True)
class _Stored:
    """What `drawn` reads of an annotation."""

    body: Mapping[str, Any]
    key: str = ""
    version: int = 0
    shows: str = ""


def _region(unit, row, photo, mark):
    source = reverse("photo_picture", args=[unit.pk, photo.key, photo.picture])
    what = photo.alt or f"photo {photo.key}"
    words = f"{'Part of: ' if mark else ''}{what}"
    return mark_safe(photo_region(mark, source, photo.width, photo.height, words))


def _photo_page(unit, photo, row):
    return f"{reverse('unit_photo', args=[unit.pk, photo.key])}?shows={row.ref}"


def _log(row):
    """Address and words of the place in a log that a number was read from; both "" without."""
    if row.recording is None or not row.recording.is_shown:
        return "", ""
    address, words = row.recording.get_absolute_url(), str(row.recording)
    name = getattr(row, "span_name", None)
    if name:
        address += f"#result-{name.replace('#', '-')}"
        words += f", {span_text(row.span_start, row.span_end)}"
    return address, words


def _own_reading(row):
    value = getattr(row, "own_value", None)
    return "" if value is None else reading_told(value, row.own_uncertainty, row)


def holds_a_number(row: Any) -> bool:
    """Whether a second person can measure what the row says: not whether a part is there."""
    quantity = QUANTITIES.get(getattr(row, "quantity", ""))
    return isinstance(row, Valued) and not (quantity and quantity.is_flag)


def _measure(row, sources):
    """The page on which it is measured once more, without the first value."""
    if not holds_a_number(row):
        return ""
    if row.first_reading and row.photo and row.photo.key in sources.photos:
        return reverse("photo_read_again", args=[sources.unit.pk, row.photo.key,
                                                 row.first_reading])
    return reverse("review_measure", args=[sources.unit.pk, *row.ref.split("/", 1)])
