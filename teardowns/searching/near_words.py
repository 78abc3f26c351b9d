"""How far two words are apart: letters that were missed, added, changed or swapped."""
from __future__ import annotations

from collections.abc import Iterable, Sequence

MOST_EDITS = 2


def edits(one: str, other: str, most: int = MOST_EDITS) -> int:
    """The fewest such changes from one word to the other; `most` + 1 where they are more.

    Optimal string alignment: no letter is changed twice.

    >>> edits("umberlisk", "umbrelisk"), edits("hub", "tubs")
    (1, 2)
    """
    if abs(len(one) - len(other)) > most:
        return most + 1
    before: list[int] = []
    row = list(range(len(other) + 1))
    for i, letter in enumerate(one, 1):
        older, before, row = before, row, [i]
        for j, its in enumerate(other, 1):
            cost = min(before[j] + 1, row[-1] + 1, before[j - 1] + (letter != its))
            if i > 1 and j > 1 and letter == other[j - 2] and its == one[i - 2]:
                cost = min(cost, older[j - 2] + 1)
            row.append(cost)
        if min(row) > most:
            return most + 1
    return row[-1]


def nearest(word: str, known: Iterable[str], count: int = 5) -> Sequence[str]:
    """Known words within reach of a word, the nearest first; short words allow one edit."""
    most = MOST_EDITS if len(word) > 4 else 1
    reached = ((edits(word, other, most), other) for other in known if other != word)
    return [other for far, other in sorted(reached) if far <= most][:count]


def halves(word: str) -> tuple[str, str]:
    """Beginning and end of a word: one edit leaves one of them as it is."""
    half = max(1, len(word) // 2)
    return word[:half], word[-half:]
