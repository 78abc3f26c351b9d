"""Where in a printed text the words of a question stand, misread ones too."""
from __future__ import annotations

import re
from functools import lru_cache

from .folding import looks_like, plain
from .question import Question, Word

LINE = 160                  # letters of a line that is shown
LINES = 2
Piece = tuple[str, bool]    # letters of the text, and whether they were asked for
_BETWEEN = r"[ \-/._]?"


def excerpt(body: str, question: Question) -> list[list[Piece]]:
    """The lines with most of a question, cut around what was found in them; as printed."""
    if not question.words:
        return []
    text = plain(body)
    by_line: dict[int, list[tuple[int, int]]] = {}
    # Pieces of a marking only where it stands nowhere as a whole.
    for match in list(_pattern(question.words).finditer(text)) or _pattern(
            question.words, is_apart=True).finditer(text):
        start = body.rfind("\n", 0, match.start()) + 1
        by_line.setdefault(start, []).append((match.start() - start, match.end() - start))
    fullest = sorted(by_line.items(), key=lambda line: (-len(line[1]), line[0]))[:LINES]
    return [_pieces(body[start:].split("\n", 1)[0], spans) for start, spans in fullest]


@lru_cache(maxsize=64)
def _pattern(words: tuple[Word, ...], is_apart: bool = False) -> re.Pattern[str]:
    ways = [_way(letters) for word in words
            for letters in {word.whole, *(() if word.is_marking and not is_apart else word.pieces)}]
    return re.compile("|".join(sorted(ways, key=lambda way: -len(way))))


def _way(letters: str) -> str:
    """Each letter or what it is misread as, with at most one sign between two of them."""
    classes = [f"[{re.escape(looks_like(letter))}{re.escape(letter)}]" for letter in letters]
    inside_a_marking = len(letters) > 2 and any(letter.isdigit() for letter in letters)
    start = "" if inside_a_marking else r"(?<![^\W_])"
    end = r"(?![^\W_])" if len(letters) < 2 else ""
    return f"{start}{_BETWEEN.join(classes)}{end}"


def _pieces(line: str, spans: list[tuple[int, int]]) -> list[Piece]:
    start = max(0, spans[0][0] - LINE // 3)
    end = min(len(line), start + LINE)
    pieces: list[Piece] = [("…", False)] if start else []
    at = start
    for first, last in spans:
        if last > end:
            break
        pieces += [(line[at:first], False), (line[first:last], True)]
        at = last
    pieces += [(line[at:end], False), ("…" if end < len(line) else "", False)]
    return [piece for piece in pieces if piece[0]]
