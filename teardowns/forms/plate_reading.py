"""A printed text read into claims: for the page beside the text, and as rows of the table."""
from dataclasses import dataclass

from teardowns.forms.number_fields import shown_text
from teardowns.forms.quantity_field import typed_text
from teardowns.models import ClaimKind
from teardowns.reading.plates import PlateError, PlateReading, read_plate

NARROW_SPACE = "\u202f"


@dataclass(frozen=True)
class ShownReading:
    """`pieces` is the whole text as (what it is: claim, unread or plain; its letters)."""

    pieces: tuple[tuple[str, str], ...] = ()
    statements: tuple[tuple[str, str], ...] = ()       # words as printed, what they were read as
    unread: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    error: str = ""
    reading: PlateReading | None = None                # what is shown; none where there is an error


def shown_reading(text: str) -> ShownReading | None:
    """The reading for the page, or None for no text."""
    if not text.strip():
        return None
    try:
        reading = read_plate(text)
    except PlateError as error:
        return ShownReading(error=error.message)
    return ShownReading(
        _pieces(reading),
        tuple((claim.text, _statement(claim)) for claim in reading.claims),
        tuple(span.text for span in reading.unread),
        reading.questions, reading=reading,
    )


def _pieces(reading: PlateReading):
    """The text cut at every border of a span; where spans overlap, claim wins over unread."""
    claims = [(claim.start, claim.end) for claim in reading.claims]
    unread = [(span.start, span.end) for span in reading.unread]
    cuts = sorted({0, len(reading.text), *(end for pair in claims + unread for end in pair)})
    return tuple(
        (_what_covers(start, claims, unread), reading.text[start:end])
        for start, end in zip(cuts, cuts[1:], strict=False)
    )


def _what_covers(at, claims, unread):
    if any(start <= at < end for start, end in claims):
        return "claim"
    return "unread" if any(start <= at < end for start, end in unread) else "plain"


def _statement(claim):
    said = [
        dict(ClaimKind.choices).get(claim.kind, claim.kind), claim.port,
        _voltage(claim), _range_text(claim.frequency_low, claim.frequency_high, "Hz"),
        typed_text(claim.current, "A"), typed_text(claim.power, "W") if claim.power_stated else "",
        _mark(claim), claim.model or claim.maker, "shared by ports" if claim.shared else "",
    ]
    return ", ".join(word.replace(" ", NARROW_SPACE) if word[0].isdigit() else word
                     for word in said if word)


def _voltage(claim):
    if claim.voltage is not None:
        return typed_text(claim.voltage, "V")
    return _range_text(claim.voltage_low, claim.voltage_high, "V")


def _mark(claim):
    return claim.mark or f"{claim.protocol} {claim.protocol_version}".strip()


def claim_rows(text: str, text_key: str) -> list[dict[str, str]]:
    """What the reading puts into new rows of the claims table; the contributor corrects them."""
    try:
        reading = read_plate(text)
    except PlateError:
        return []                       # the reading beside the text says why
    return [_row(claim, text_key) for claim in reading.claims if claim.kind in ClaimKind.values]


def _row(claim, text_key):
    return {
        "kind": claim.kind, "text": claim.text[:300], "printed_text": text_key,
        "start": claim.start, "end": claim.end,
        "voltage": shown_text(_voltage(claim)),
        "frequency": shown_text(_range_text(claim.frequency_low, claim.frequency_high, "Hz")),
        "current": shown_text(typed_text(claim.current, "A")),
        "power": shown_text(typed_text(claim.power, "W")) if claim.power_stated else "",
        "port": claim.port[:40], "mark": _mark(claim)[:60],
        "shared": {True: "yes", False: "no", None: ""}[claim.shared],
    }


def _range_text(low, high, unit):
    if low is None or high is None or low == high:
        return typed_text(high if low is None else low, unit)
    return f"{typed_text(low, unit).removesuffix(f' {unit}')}-{typed_text(high, unit)}"


def without_known(rows, known):
    """Rows that the table does not hold yet: the same words with the same numbers stay one row."""
    seen = {_identity(row) for row in known}
    return [row for row in rows if _identity(row) not in seen]


def _identity(row):
    return tuple(str(row.get(name) or "") for name in
                 ("kind", "text", "printed_text", "voltage", "current", "power", "mark"))
