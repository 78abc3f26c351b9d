"""Remarks on single items of a record that is sent back: an item and what is to be changed."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

FEWEST, STEP, MOST = 3, 3, 60
LONGEST = 2000
WHOLE = ("", "The record as a whole")


@dataclass(frozen=True, slots=True)
class RemarkRow:
    number: int
    ref: str
    text: str
    error: str = ""


class RemarkRows:
    """As many rows as are filled, and a few to spare; `names` are those of the items, by ref."""

    def __init__(self, names: Mapping[str, str], data: Mapping[str, str] | None = None,
                 proposed: Iterable[tuple[str, str]] = (), more: bool = False):
        self.choices = [WHOLE, *sorted(names.items(), key=lambda item: item[1].lower())]
        filled = self._typed(data) if data is not None else [
            (ref, text) for ref, text in proposed if ref in names]
        room = max(FEWEST, len(filled) + 1) + (STEP if more else 0)
        padded = (filled + [("", "")] * room)[:min(room, MOST)]
        self.rows = [RemarkRow(number, ref, text, self._error(ref, text, names))
                     for number, (ref, text) in enumerate(padded)]

    @staticmethod
    def _typed(data):
        found = [(data.get(f"remark-ref-{n}", ""), data.get(f"remark-text-{n}", ""))
                 for n in range(MOST)]
        return [(ref, text) for ref, text in found if text.strip()]

    @staticmethod
    def _error(ref, text, names):
        if ref and ref not in names:
            return "This item is gone: choose another, or the record as a whole."
        if len(text) > LONGEST:
            return f"Write at most {LONGEST} characters to an item; these are {len(text)}."
        return ""

    @property
    def is_sound(self) -> bool:
        return not any(row.error for row in self.rows)

    @property
    def remarks(self) -> list[tuple[str, str]]:
        return [(row.ref, row.text.strip()) for row in self.rows if row.text.strip()]
