"""What a question asks an index for, the surest first: whole names, titles, words, misreadings."""
from __future__ import annotations

from .folding import folded
from .question import Question, Word, read_question
from .tokens import (
    ANY,
    LEAST_PIECE,
    LOOSE,
    MARKING,
    MARKING_LOOSE,
    MODEL,
    MODEL_LOOSE,
    OTHER,
    TITLE,
    UNIT,
)
from .wanted import AllOf, AnyOf, Token, Wanted

SURE = 4            # letters from which a misread word is likely to be the one that was meant
LEAST_START = 2     # letters of a name that is only begun


def unit_tiers(text: str) -> list[Wanted]:
    """For units, as typed: model, marking, beginning of either, title, anywhere."""
    question, misread = read_question(text), read_question(folded(text))
    if not question:
        return []
    return [
        Token(UNIT + MODEL + question.name), Token(UNIT + MODEL_LOOSE + misread.name),
        Token(UNIT + MARKING + question.name), Token(UNIT + MARKING_LOOSE + misread.name),
        *_begun(UNIT, question),
        _all(UNIT + TITLE, question), _all(UNIT + ANY, question),
    ]


def other_tiers(text: str) -> list[Wanted]:
    """For parts and families together."""
    question, misread = read_question(text), read_question(folded(text))
    if not question:
        return []
    whole = AnyOf(tuple(Token(f"{OTHER}{part}{misread.name}")
                        for part in (MODEL_LOOSE, MARKING_LOOSE)))
    return [whole, *_begun(OTHER, question), _all(OTHER + TITLE, question),
            _misread(OTHER, question, misread)]


def misread_tiers(text: str) -> list[Wanted]:
    """For units: any word of four letters or more may have been misread, then any word at all."""
    question, misread = read_question(text), read_question(folded(text))
    if not question:
        return []
    return [_misread(UNIT, question, misread), _misread(UNIT, misread, misread)]


def apart_tiers(text: str) -> list[Wanted]:
    """For units: the pieces of each word anywhere, also those of a marking, which need not stand
    together then. UWK-36 and KL150-18 in one unit are no UWK-18: a last resort."""
    question = read_question(text)
    return [AllOf(tuple(_apart(UNIT + ANY, word) for word in question.words))] if question else []


def pieces_inside(text: str) -> list[tuple[list[str], Wanted | None]]:
    """Ways in which pieces may stand inside markings: the folded pieces, and what else a unit has.

    All of it run together; or each word with a digit inside a marking and the others as words,
    for a few letters inside of some other word mean nothing.
    """
    misread = read_question(folded(text))
    ways: list[tuple[list[str], Wanted | None]] = []
    if len(misread.name) >= LEAST_PIECE:
        ways.append(([misread.name], None))
    inside: list[Word] = []
    rest: list[Word] = []
    for word, loose in _pairs(read_question(text), misread):
        marks = len(loose.whole) >= LEAST_PIECE and any(map(str.isdigit, word.whole))
        (inside if marks else rest).append(loose)
    if inside and len(misread.words) > 1:
        besides = AllOf(tuple(_either(UNIT, word) for word in rest)) if rest else None
        ways.append(([word.whole for word in inside], besides))
    return ways


def _pairs(question: Question, misread: Question) -> list[tuple[Word, Word]]:
    """Each word as typed, where that can be told, and folded."""
    same = len(question.words) == len(misread.words)
    return list(zip(question.words if same else misread.words, misread.words, strict=True))


def _begun(kind, question):
    if len(question.name) < LEAST_START:
        return []
    return [AnyOf((Token(kind + MODEL + question.name, is_start=True),
                   Token(kind + MARKING + question.name, is_start=True)))]


def _all(prefix: str, question: Question) -> Wanted:
    return AllOf(tuple(_word(prefix, word) for word in question.words))


def _word(prefix: str, word: Word) -> Wanted:
    """A marking stands as a whole; of other words the pieces may stand apart."""
    return Token(prefix + word.whole, word.is_start) if word.is_marking else _apart(prefix, word)


def _apart(prefix: str, word: Word) -> Wanted:
    whole = Token(prefix + word.whole, word.is_start)
    if len(word.pieces) < 2:
        return whole
    *first, last = word.pieces
    return AnyOf((whole, AllOf((*(Token(prefix + piece) for piece in first),
                                Token(prefix + last, word.is_start)))))


def _misread(kind: str, question: Question, misread: Question) -> Wanted:
    """Each word as it may have been misread; short ones as they were typed."""
    return AllOf(tuple(
        _either(kind, loose) if word is loose or len(word.whole) >= SURE
        else _word(kind + ANY, word) for word, loose in _pairs(question, misread)))


def _either(kind: str, word: Word) -> Wanted:
    return AnyOf((_word(kind + ANY, word), _word(kind + LOOSE, word)))
