"""What somebody typed into the search box, as words and phrases. No sign of it is a command."""
from __future__ import annotations

import re
from dataclasses import dataclass

from .folding import as_read, plain
from .words import LONGEST, WORD, chunks_of, run_together

MOST_WORDS = 8
MOST_LETTERS = 200
_QUOTED = re.compile(r'["“”„«»]([^"“”„«»]*)["“”„«»]')
NOTHING = "Type a letter or a digit: signs alone cannot be searched for."
CUT = f"Only the first {MOST_WORDS} words were searched for."
TOO_LONG = f"No word of more than {LONGEST} letters is known here: search for a part of it."
CUT_LETTERS = f"Only the first {MOST_LETTERS} letters were searched for."


@dataclass(frozen=True, slots=True)
class Word:
    """`vq-45` is the word `vq45`, or the pieces `vq` and `45`."""

    whole: str
    pieces: tuple[str, ...]
    is_start: bool = False          # the last one may be half typed

    @property
    def is_marking(self) -> bool:
        """Letters and digits: its pieces alone mean nothing."""
        return any(map(str.isdigit, self.whole)) and any(map(str.isalpha, self.whole))


@dataclass(frozen=True, slots=True)
class Question:
    words: tuple[Word, ...] = ()
    phrases: tuple[str, ...] = ()       # plain words with one blank between
    name: str = ""                      # all of it without what parts its letters
    remark: str = ""                    # what a person should know about how it was read

    def __bool__(self) -> bool:
        return bool(self.words)


def read_question(text: str) -> Question:
    """The question that a text asks; an empty one of a text without letters and digits.

    >>> [word.whole for word in read_question('hub "65 w" b8').words]
    ['65w', 'hub', 'b8']
    """
    asked = as_read(text[:MOST_LETTERS])
    quoted = [as_phrase(piece) for piece in _QUOTED.findall(asked)]
    phrases = tuple(dict.fromkeys(phrase for phrase in quoted if phrase))
    open_text = _QUOTED.sub(" ", asked)
    words = [Word(*chunk) for phrase in phrases for chunk in chunks_of(phrase)]
    typed = [Word(*chunk) for chunk in chunks_of(open_text)]
    if typed and WORD.search(plain(asked[-1:])):
        last = typed[-1]
        typed[-1] = Word(last.whole, last.pieces, is_start=len(last.pieces[-1]) > 1)
    words = list(dict.fromkeys(words + typed))
    known = [word for word in words if len(word.whole) <= LONGEST]
    return Question(tuple(known[:MOST_WORDS]), phrases, run_together(asked),
                    _remark(text, words, known))


def as_phrase(text: str) -> str:
    """The words of a text in their order, for finding a phrase in it."""
    return " ".join(WORD.findall(plain(text)))


def _remark(text: str, words: list[Word], known: list[Word]) -> str:
    if text.strip() and not words:
        return NOTHING
    if len(known) < len(words):
        return TOO_LONG
    if len(words) > MOST_WORDS:
        return CUT
    return CUT_LETTERS if len(text) > MOST_LETTERS else ""
