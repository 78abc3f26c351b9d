"""The door: verbatim text in, claims with their spans, unread pieces and questions out."""

from __future__ import annotations

from teardowns.reading.plates.assembler import Assembler
from teardowns.reading.plates.claims import Fields, PlateClaim, PlateError, PlateReading, Span
from teardowns.reading.plates.inputs import input_doubts
from teardowns.reading.plates.items import items_of
from teardowns.reading.plates.normalise import Normalised, normalise
from teardowns.reading.plates.tokens import tokenise

MAX_LENGTH = 4000


def read_plate(text: str) -> PlateReading:
    """Read plate, package or listing text. Raises PlateError only for what is no such text."""
    if not isinstance(text, str):
        raise PlateError("The text of the plate must be written text.")
    if len(text) > MAX_LENGTH:
        raise PlateError(
            f"This text is {len(text)} characters long; at most {MAX_LENGTH} can be read at once. "
            "Enter the plate, the package and the listing separately."
        )
    plain = normalise(text)
    assembler = Assembler(items_of(tokenise(plain.text)))
    assembler.run()
    claims = _in_original(assembler.claims, plain, text)
    labels = [(item.kind, plain.original(item.start, item.end)[0])
              for item in assembler.items if item.kind in ("input", "outlet")]
    questions = (
        *_questions(assembler.questions, plain, text), *input_doubts(claims, text, labels)
    )  # fmt: skip
    return PlateReading(text, claims, _unread(assembler, plain, text), questions)


def _in_original(claims: list[Fields], plain: Normalised, text: str) -> tuple[PlateClaim, ...]:
    """Claims with original offsets, in printed order, the same statement only once."""
    placed: dict[object, PlateClaim] = {}
    for fields in sorted(claims, key=lambda fields: fields["start"]):
        start, end = plain.original(fields.pop("start"), fields.pop("end"))
        claim = PlateClaim(text=text[start:end], start=start, end=end, **fields)
        placed.setdefault(_once_key(claim), claim)
    return tuple(placed.values())


def _once_key(claim: PlateClaim) -> object:
    """Marks, features and protocols are printed again and again; ratings are kept each."""
    if claim.kind in ("mark", "feature"):
        return (claim.kind, claim.mark)
    if claim.kind == "protocol":
        return (claim.protocol, claim.protocol_version, claim.port)
    return (claim.start, claim)


def _questions(
    found: list[tuple[int, int, str]], plain: Normalised, text: str
) -> tuple[str, ...]:
    worded = []
    for start, end, question in sorted(found):
        first, last = plain.original(start, end)
        worded.append(f"“{text[first:last]}”: {question}")
    return tuple(dict.fromkeys(worded))


def _unread(assembler: Assembler, plain: Normalised, text: str) -> tuple[Span, ...]:
    """Items with letters or digits that no claim and no known word accounts for."""
    known = set(assembler.read)
    silent = {"sign", "dashes", "nature", "unit"}
    pieces = [
        plain.original(item.start, item.end)
        for item in assembler.items
        if item.kind not in silent and (item.start, item.end) not in known
    ]
    return tuple(Span(start, end, text[start:end]) for start, end in _joined(pieces, text))


def _joined(pieces: list[tuple[int, int]], text: str) -> list[tuple[int, int]]:
    """Neighbouring pieces with nothing but blanks between them become one."""
    joined: list[tuple[int, int]] = []
    for start, end in pieces:
        if joined and not text[joined[-1][1] : start].strip() and "\n" not in text[
            joined[-1][1] : start
        ]:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((start, end))
    return joined
