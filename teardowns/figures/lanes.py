"""Letters over spans of one axis, in as many lanes as keep them apart."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from string import ascii_uppercase

CHARACTER = 2.8          # percent of the width that one takes, on the narrowest screen


@dataclass(frozen=True, slots=True)
class Lettered:
    text: str                 # "A", or "A–C, F" where several share one span
    start: float              # percent
    end: float
    middle: float             # of the text
    lane: int                 # 0 is the first


def letter(index: int) -> str:
    """A to Z, then AA, AB …, as an ordered list of type "A" counts."""
    text = ""
    while index >= 0:
        text = ascii_uppercase[index % 26] + text
        index = index // 26 - 1
    return text


def lettered(spans: Sequence[tuple[float, float]]) -> tuple[Lettered, ...]:
    """The spans, in percent, with their letters; equal spans are drawn once."""
    together: dict[tuple[float, float], list[int]] = {}
    for index, (start, end) in enumerate(spans):
        together.setdefault((round(start, 2), round(end, 2)), []).append(index)
    free: list[float] = []           # where each lane's last mark ends
    placed = []
    for (start, end), indices in sorted(together.items()):
        text = _in_runs(indices)
        half = CHARACTER * len(text) / 2
        middle = min(max((start + end) / 2, half), 100 - half)
        left, right = min(start, middle - half), max(end, middle + half)
        lane = next((i for i, taken in enumerate(free) if left > taken + 1), len(free))
        free[lane:lane + 1] = [right]
        placed.append(Lettered(text, start, end, middle, lane))
    return tuple(placed)


def _in_runs(indices: Iterable[int]) -> str:
    runs: list[list[int]] = []
    for index in indices:
        if runs and index == runs[-1][-1] + 1:
            runs[-1].append(index)
        else:
            runs.append([index])
    return ", ".join(_run(run) for run in runs)


def _run(run):
    first, last = letter(run[0]), letter(run[-1])
    return first if len(run) == 1 else f"{first}, {last}" if len(run) == 2 else f"{first}–{last}"
