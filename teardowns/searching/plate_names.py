"""Names that a plate may hold: neighbouring pieces of each line, run together and folded."""
from __future__ import annotations

from collections.abc import Iterable, Iterator

from .folding import folded
from .words import CHUNK, LONGEST, run_together

LONGEST_NAME = 4            # pieces
MOST = 400                  # names that are looked up


def names_on(text: str, read: Iterable[str] = ()) -> list[str]:
    """`VQ 45` and `VELTRICE VQ 45` as keys of models and makers; first those that were read."""
    found = dict.fromkeys(run_together(folded(name)) for name in read)
    for line in text.splitlines():
        found |= dict.fromkeys(_of_line(CHUNK.findall(line)))
    return [name for name in found if _is_name(name)][:MOST]


def _of_line(chunks: list[str]) -> Iterator[str]:
    for start in range(len(chunks)):
        for end in range(start + 1, min(start + LONGEST_NAME, len(chunks)) + 1):
            yield run_together(folded(" ".join(chunks[start:end])))


def _is_name(name: str) -> bool:
    """One letter is no name, nor are two letters without a digit."""
    return 2 <= len(name) <= LONGEST and (len(name) > 2 or any(map(str.isdigit, name)))
