"""Cut the normalised text into numbers, units, known words and signs, from left to right.

Every pattern is tried at one place only and has bounded repeats, so the time is linear.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from teardowns.reading.plates.vocabulary import word_at


class Token(NamedTuple):
    kind: str  # number, confused, unit, sign, dashes, word, model, maker, times, or a known word's
    value: str
    start: int
    end: int
    line: int


_LIST = re.compile(r"[0-9]{1,2}(?:,[0-9]{1,2}){2,8}(?![0-9.])")
_NUMBER = re.compile(
    r"[0-9]{1,6}(?:[.,][0-9]{1,4})?(?![0-9])|(?<![A-Za-z0-9.,])\.[0-9]{1,3}(?![0-9])"
)
_OPAQUE_NUMBER = re.compile(r"[0-9]+(?:[.,][0-9]+)*")
_DATE_LIKE = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,6}){2,6}")
_UNIT_NAMES = (
    r"m ?A|MA|ma|VA|V(?:olts?)?|v(?:olts?)?|A(?:mps?|mperes?)?|a(?:mps?)?"
    r"|W(?:atts?)?|w(?:atts?)?|kHz|[Hh][Zz]"
)
_UNIT = re.compile(
    rf"({_UNIT_NAMES})\.?(AC|DC|ac|dc|Ac|Dc)?(?![A-Za-zµ])|({_UNIT_NAMES})(?=(?i:max))"
)
_CONFUSED = re.compile(
    rf"(?=[.,OoIl]{{0,8}}[0-9])[0-9OoIl][0-9OoIl.,]{{0,8}}"
    rf"(?= ?(?:{_UNIT_NAMES})(?![A-Za-z])|[-/~][0-9OoIl]{{1,4}}(?![A-Za-z]* ))"
)
_DASHES = re.compile(r"[-—_](?: ?[-—_]){1,5}|={2,3}|…|\.{3}")
_TIMES_BEFORE = re.compile(r"([2-9]) ?[x×*] ?(?=USB|(?i:Type))")
_TIMES_AFTER = re.compile(r" ?[x×*] ?([2-9])(?![0-9])")
_OPAQUE_WORD = re.compile(r"[A-Za-z][A-Za-z0-9_]*(?:[-.][A-Za-z0-9]+)*")
_MODEL = re.compile(
    r"(?:(?i:model(?:l|o)?(?: ?(?:no|number|nr|name))?|mod)(?![A-Za-z])|M/N|型号|型號|型番)"
    r" ?([.:#=]{0,2})\s?([A-Za-z0-9][A-Za-z0-9_./+#-]{0,39})"
    r"(?: ([A-Za-z0-9-]{0,15}[0-9][A-Za-z0-9-]{0,15})(?![^\s,;]))?"
)
_QUANTITY = re.compile(rf"[0-9]{{1,5}}(?:-[0-9]{{1,5}})?(?:{_UNIT_NAMES})")
_MAKER = re.compile(
    r"(?:(?i:manufacturer|manufactured by|made by|maker|brand|Hersteller)|制造商)"
    r" ?: ?([^\n;|]{1,60})"
)


def tokenise(text: str) -> list[Token]:
    tokens: list[Token] = []
    at, line = 0, 0
    while at < len(text):
        character = text[at]
        if character.isspace():
            line += character == "\n"
            at += 1
            continue
        found = _tokens_at(text, at, line, tokens[-1] if tokens else None)
        tokens += found
        at = found[-1].end
    return tokens


def _tokens_at(text: str, at: int, line: int, previous: Token | None) -> list[Token]:
    """At least one token that begins at `at`."""
    character = text[at]
    if previous is not None and previous.kind in ("number", "confused") and (
        unit := _UNIT.match(text, at)
    ):
        return _unit_tokens(unit, line)
    if previous is not None and previous.kind == "port" and (times := _TIMES_AFTER.match(text, at)):
        return [Token("times", times[1], at, times.end(), line)]
    if character in "0123456789.,OoIl" and (numbers := _numbers_at(text, at, line)):
        return numbers
    if dashes := _DASHES.match(text, at):
        return [Token("dashes", dashes[0], at, dashes.end(), line)]
    if not character.isascii() or character.isalpha():
        return [_word_at(text, at, line)]
    return [Token("sign", character, at, at + 1, line)]


def _unit_tokens(match: re.Match[str], line: int) -> list[Token]:
    name = (match[1] or match[3]).replace(" ", "")
    unit = "Hz" if name.lower() == "hz" else name if name == "kHz" else name[0].upper()
    if name.lower() in ("ma", "va"):
        unit = {"ma": "mA", "va": "VA"}[name.lower()]
    end = match.end(1) if match[1] else match.end(3)
    tokens = [Token("unit", unit, match.start(), end, line)]
    if match[2]:
        tokens.append(Token("nature", match[2].lower(), match.start(2), match.end(2), line))
    return tokens


def _numbers_at(text: str, at: int, line: int) -> list[Token]:
    confused = _CONFUSED.match(text, at)
    if confused and any(letter in confused[0] for letter in "OoIl"):
        return [Token("confused", confused[0], at, confused.end(), line)]
    if times := _TIMES_BEFORE.match(text, at):
        return [Token("times", times[1], at, times.end(), line)]
    if listed := _LIST.match(text, at):
        return _listed(listed, line)
    if dated := _DATE_LIKE.match(text, at):
        return [Token("word", dated[0], at, dated.end(), line)]
    if number := _NUMBER.match(text, at):
        return [Token("number", number[0], at, number.end(), line)]
    if opaque := _OPAQUE_NUMBER.match(text, at):
        return [Token("word", opaque[0], at, opaque.end(), line)]
    return []


def _listed(match: re.Match[str], line: int) -> list[Token]:
    """5,9,12: three or more short numbers between commas are a list, never a decimal number."""
    return [
        Token("sign" if piece[0] == "," else "number", piece[0], piece.start(), piece.end(), line)
        for piece in re.compile(r"[0-9]+|,").finditer(match.string, match.start(), match.end())
    ]


def _word_at(text: str, at: int, line: int) -> Token:
    if model := _model_at(text, at, line):
        return model
    if maker := _MAKER.match(text, at):
        return Token("maker", maker[1].strip(), at, maker.end(), line)
    if known := word_at(text, at):
        return Token(known[0], known[1], at, known[2], line)
    if opaque := _OPAQUE_WORD.match(text, at):
        return Token("word", opaque[0], at, opaque.end(), line)
    sign = "sign" if text[at] in "⎓—×·•" else "word"
    return Token(sign, text[at], at, at + 1, line)


def _model_at(text: str, at: int, line: int) -> Token | None:
    """`Model: UP-20C`, `Model Nova 20`; a bare word behind “model” must carry a digit."""
    match = _MODEL.match(text, at)
    if match is None:
        return None
    known = word_at(text, match.start(2))
    if known is not None and known[0] in ("input", "output"):
        return None
    end = match.end(2)
    has_digit = any(c.isdigit() for c in match[2])
    if match[3] and not has_digit and not _QUANTITY.fullmatch(match[3]):
        end, has_digit = match.end(3), True
    if not has_digit and not match[1]:
        return None
    value = text[match.start(2) : end].rstrip("./-,")
    return Token("model", value, at, end, line)
