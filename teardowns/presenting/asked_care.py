"""How well a bench sheet tells what it tells: descriptions, scales, uncertainties, evidence."""
from __future__ import annotations

import re
from collections.abc import Callable

from teardowns.engine.quantities import QUANTITIES
from teardowns.models import How, State

from .asked import MISSING, NONE_OF_IT, THERE, Asked, told
from .asked_rows import Sheet

MOST_NAMED = 4
UNJUDGED = "no evidence"
# “S/N 2231B0457”, “Serial No.: 004 117 225”: six characters or more, digits among them.
SERIAL = re.compile(
    r"\b(?i:s\s?/\s?n|sn(?=\s*[.:#])|ser(?:ial)?(?:[\s.]*(?:no|nr|number)\b|(?=\s*[.:#])))[\s.:#]*"
    r"(?:\d[\d -]{4,}\d|(?=[A-Za-z0-9-]*\d)[A-Za-z0-9-]{6,})")


def _alt(sheet):
    described = sum(bool(photo.alt) for photo in sheet.photos)
    return Asked("Photos described in words", told(described, len(sheet.photos)),
                 _of(described, len(sheet.photos)), sheet.photo_page)


def _of(good, of):
    return f"{good} of {of}" if of else ""


def _scales(sheet):
    """Distances read off photos, on photos that carry a scale."""
    scaled = {photo.pk for photo in sheet.photos if photo.has_scale}
    rows = [row for row in sheet.rows if row.off_photo and row.state == State.RECORDED]
    good = sum(row.photo in scaled for row in rows)
    words = _of(good, len(rows)) or "No distance was read off a photo."
    return Asked("Scale on photos that distances were read off", told(good, len(rows)), words,
                 sheet.photo_page)


def _uncertainties(sheet):
    """A flag and a count have none; neither has what somebody else printed."""
    rows = [row for row in sheet.rows if row.state == State.RECORDED and _is_measured(row)]
    good = sum(row.uncertainty is not None for row in rows)
    words = f"given for {good} of {len(rows)} values" if rows else "Nothing was measured."
    return Asked("Uncertainties", told(good, len(rows)), words, sheet.section("outside"))


def _is_measured(row):
    if row.kind == "insulationobservation":
        return True
    quantity = QUANTITIES.get(row.which)
    return row.kind == "measurement" and row.also == How.MEASURED \
        and not (quantity and quantity.is_flag)


def _serials(sheet):
    texts = [row for row in sheet.of("printedtext") + sheet.of("claim") if row.also]
    found = next((hit.group() for row in texts if (hit := SERIAL.search(row.also))), "")
    address = sheet.section("printed", "texts")
    if found:
        return Asked("Serial numbers left out", MISSING, f"“{found}” looks like one: write x for "
                     "its digits.", address)
    return Asked("Serial numbers left out", THERE if texts else NONE_OF_IT,
                 "none seen in the texts" if texts else "", address)


def _claims_with_evidence(sheet):
    claims = (sheet.report or {}).get("claims", ())
    bare = [claim["text"] for claim in claims if claim["verdict"] == UNJUDGED]
    words = "without any: " + "; ".join(bare[:MOST_NAMED]) if bare else \
        "" if claims else "No claim was recorded that evidence could speak to."
    if len(bare) > MOST_NAMED:
        words += f" and {len(bare) - MOST_NAMED} more"
    return Asked("Evidence for each claim", told(len(claims) - len(bare), len(claims)), words,
                 f"{sheet.unit.get_absolute_url()}#next")


ASKS_OF_CARE: tuple[Callable[[Sheet], Asked], ...] = (
    _claims_with_evidence, _uncertainties, _scales, _alt, _serials,
)
