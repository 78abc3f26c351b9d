"""The name of a set of evidence: same digest and same rulebook, same numbers."""
from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

from teardowns.exchange.document import FORM, counts
from teardowns.exchange.rules import EVIDENCE_LISTS
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import brief
from teardowns.reading import plug
from teardowns.reading.markings import core as markings_core

# What of the unit itself bears on a verdict. Title, maker, price, place and day of purchase,
# remarks, stage and identity do not: correcting them leaves an assessment as it is.
UNIT_EVIDENCE = ("kind", "plug", "photographed_sides", "listing_reach")
ROOM = Path(__file__).parent
READERS = (ROOM / "observations.py", ROOM / "ports.py", ROOM / "subjects.py", ROOM / "tables.py",
           *sorted((ROOM / "observing").glob("*.py")), Path(markings_core.__file__),
           Path(plug.__file__))


def digest(document: Mapping[str, Any], confirmed_only: bool = False) -> str:
    """SHA-256 of the evidence of a full document, in hexadecimal.

    It covers the rows of evidence in their order, the parts they cite, photos and recordings by the
    digest of their file, and of the unit what bears on a verdict (UNIT_EVIDENCE). A review moves it
    only where a row starts or ceases to count. So does a change in how rows are read for the
    engine, which the rulebook's version does not show.
    """
    return _name_of(document, brief(document, unit_schema()), confirmed_only)


def both_digests(document: Mapping[str, Any]) -> tuple[str, str]:
    """Of all its evidence, and of what is confirmed."""
    slim = brief(document, unit_schema())
    return _name_of(document, slim, False), _name_of(document, slim, True)


def _name_of(document, slim, confirmed_only):
    files = {name: {row["key"]: row["sha256"] for row in document[name]}
             for name in ("photos", "recordings")}
    unit = {name: slim["unit"][name] for name in UNIT_EVIDENCE if name in slim["unit"]}
    evidence = {"form": FORM, "read_by": _readers(), "unit": unit, "parts": slim.get("parts", [])}
    for name in EVIDENCE_LISTS:
        evidence[name] = [
            _evidence_of(row, files) | {"counts": counts(whole, confirmed_only)}
            for row, whole in zip(slim.get(name, []), document[name], strict=True)
        ]
    text = json.dumps(evidence, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    return sha256(text.encode()).hexdigest()


def _evidence_of(row, files):
    row = {key: value for key, value in row.items() if key != "review_state"}
    for field, name in (("photo", "photos"), ("recording", "recordings")):
        if field in row:
            row[field] = files[name][row[field]]
    return row


@cache
def _readers():
    sources = b"".join(path.read_bytes() for path in READERS)
    return sha256(sources).hexdigest()
