"""What a protocol analyser wrote of a port: capability words in any spelling, or modes in words.

A list begins with 5 V. That tells which byte comes first where a log shows bytes as they went over
the wire; where both orders begin with 5 V, or neither does, nobody guesses.
"""
from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from teardowns.engine.physics.power_objects import Fixed, PowerObjectError, decode

MOST_TEXT = 20_000              # characters
MOST_WORDS = 13                 # seven objects, and six of the extended range
AS_WRITTEN, REVERSED = "as_written", "reversed"
ORDERS = {AS_WRITTEN: "highest byte first, as written",
          REVERSED: "lowest byte first, as on the wire"}
_HEADER = 2                     # bytes of a message before its objects
_CHECK = 4                      # bytes after them

_WORD = re.compile(r"(?<![\w.])(?:0[xX]|\$|#)?([0-9A-Fa-f]{8})[hH]?(?![\w.])")
_HALVES = re.compile(r"(?<![\w.])(?:0[xX])?([0-9A-Fa-f]{4})[ _']([0-9A-Fa-f]{4})(?![\w.])")
_BITS = re.compile(r"(?<!\w)(?:0[bB])?((?:[01]{4}[ _]?){7}[01]{4})(?!\w)")
_BYTES = re.compile(r"(?<![\w.:-])(?:0[xX])?[0-9A-Fa-f]{2}(?P<between>[ :;-]|, ?)(?:0[xX])?"
                    r"[0-9A-Fa-f]{2}(?:(?P=between)(?:0[xX])?[0-9A-Fa-f]{2}){2,}(?![\w.])")
_RUN = re.compile(r"(?<![\w.])(?:0[xX])?((?:[0-9A-Fa-f]{8}){2,})(?![\w.])")
_NUMBER = r"\d+(?:[.,]\d+)?"
_MODE = re.compile(
    rf"(?:(?P<low>{_NUMBER})\s*V?\s*(?:-|–|—|to|\.\.\.?|~)\s*)?(?P<volts>{_NUMBER})\s*V(?![a-z])"
    rf"(?:[^\d\n]{{0,12}}?(?P<amperes>{_NUMBER})\s*(?P<milli>m?)A(?![a-z]))?"
    rf"(?:[^\d\n]{{0,12}}?(?P<watts>{_NUMBER})\s*W(?![a-z]))?", re.I)
_SCHEMES = (                    # how a mode is asked for, in the order in which they are looked for
    ("programmable", re.compile(r"\bPPS\b|programmable", re.I)),
    ("adjustable", re.compile(r"\bAVS\b|adjustable", re.I)),
    ("battery", re.compile(r"\bbatter", re.I)),
    ("variable", re.compile(r"\bvariable\b", re.I)),
    ("data_lines", re.compile(r"\bQC\b|\bQC ?\d|D\+|\bDCP\b|\bCDP\b|BC ?1\.2|divider", re.I)),
    ("fixed", re.compile(r"\bfixed\b|\bPDO\b|\bPD\b|", re.I)),
)


@dataclass(frozen=True, slots=True)
class Mode:
    """One mode in words; NaN-free: None is not stated."""

    scheme: str                 # "fixed", "programmable", "adjustable", "data_lines", …
    low: float | None           # V, of a range
    voltage: float              # V; the upper end of a range
    current: float | None       # A
    power: float | None         # W
    line: int


@dataclass(frozen=True, slots=True)
class UnreadLine:
    line: int                   # 1 is the first
    text: str


@dataclass(frozen=True, slots=True)
class Capabilities:
    words: tuple[str, ...]              # eight hexadecimal digits each, in the order of the list
    modes: tuple[Mode, ...]             # empty where there are words
    order: str                          # AS_WRITTEN or REVERSED; "" where it has to be asked
    readings: dict[str, tuple[str, ...]]      # the words under each order, where it is asked
    unread: tuple[UnreadLine, ...]


class UnreadableCapture(ValueError):
    """Text in which neither words nor modes were found, or too much of it; says the remedy."""


def read_capabilities(text: str, order: str = "") -> Capabilities:
    """order : what the contributor answered, "" = not asked yet. Raises UnreadableCapture."""
    if len(text) > MOST_TEXT:
        raise UnreadableCapture(f"The text has {len(text):,} characters, at most {MOST_TEXT:,} are "
                                "read: leave in only the lines that list the capabilities.")
    lines = [(number, line.strip()) for number, line in enumerate(text.splitlines(), 1)
             if line.strip()]
    found = {number: tuple(_words_in(line)) for number, line in lines}
    groups = [group for groups in found.values() for group in groups]
    if groups:
        spoken = {number for number, groups in found.items() if groups}
        return _of_words(groups, order, _rest(lines, spoken))
    modes = tuple(mode for number, line in lines for mode in _modes_in(line, number))
    if not modes:
        raise UnreadableCapture("Neither capability words nor modes were found: paste words of "
                                "eight hexadecimal digits, such as 0A01912C, or lines such as "
                                "“9 V 3 A”.")
    return Capabilities((), modes, AS_WRITTEN, {}, _rest(lines, {mode.line for mode in modes}))


def _rest(lines, spoken):
    return tuple(UnreadLine(number, line) for number, line in lines if number not in spoken)


def _words_in(line: str) -> Iterator[tuple[str, bool]]:
    """Eight digits each, and whether they are bytes in the order in which they were written."""
    if match := _BITS.search(line):
        yield f"{int(re.sub('[ _]', '', match[1]), 2):08X}", False
    elif match := _RUN.search(line):
        yield from ((word, True) for word in _objects(bytes.fromhex(match[1])))
    elif words := _WORD.findall(line):
        yield from ((word.upper(), False) for word in words)
    elif match := _BYTES.search(line):
        digits = re.sub(r"0[xX](?=[0-9A-Fa-f]{2})|[^0-9A-Fa-f]", "", match[0])
        yield from ((word, True) for word in _objects(bytes.fromhex(digits)))
    else:
        yield from (((high + low).upper(), False) for high, low in _HALVES.findall(line))


def _objects(data: bytes) -> list[str]:
    """The objects of a message, without its header and its check, four bytes each as written.

    A header says in bits 14 to 12 how many objects follow (USB PD, message header; from memory).
    """
    if len(data) >= _HEADER + 4:
        count = data[1] >> 4 & 0b111
        if count and len(data) in (_HEADER + 4 * count, _HEADER + 4 * count + _CHECK):
            data = data[_HEADER:_HEADER + 4 * count]
    return [data[at:at + 4].hex().upper() for at in range(0, len(data) - len(data) % 4, 4)]


def _of_words(groups, order, unread):
    words = tuple(word for word, _ in groups)
    if len(words) > MOST_WORDS:
        raise UnreadableCapture(f"{len(words)} words were found, and a list has at most "
                                f"{MOST_WORDS}: paste the list of one port alone.")
    turned = tuple(bytes.fromhex(word)[::-1].hex().upper() for word in words)
    readings = {AS_WRITTEN: words, REVERSED: turned}
    begins = [name for name, read in readings.items() if _begins_with_5v(read)]
    is_plain = not any(in_bytes for _, in_bytes in groups)
    settled = order or (begins[0] if len(begins) == 1 else "")
    if not settled and is_plain and not begins:
        settled = AS_WRITTEN            # words are written highest byte first; the rules say more
    if not settled:
        return Capabilities((), (), "", readings, unread)
    return Capabilities(readings[settled], (), settled, {}, unread)


def _begins_with_5v(words: Sequence[str]) -> bool:
    try:
        first = decode(int(words[0], 16), first=True)
    except PowerObjectError:
        return False
    return isinstance(first, Fixed) and first.voltage == 5.0 and not first.reserved


def _modes_in(line, number):
    scheme = next(name for name, words in _SCHEMES if words.search(line))
    for match in _MODE.finditer(line):
        current = _number(match["amperes"])
        yield Mode(_scheme_of(scheme, match), _number(match["low"]), _number(match["volts"]),
                   current if current is None or not match["milli"] else current / 1000,
                   _number(match["watts"]), number)


def _scheme_of(scheme, match):
    """A range that nobody named is no fixed supply."""
    return "range" if scheme == "fixed" and match["low"] else scheme


def _number(text):
    return None if text is None else float(text.replace(",", "."))
