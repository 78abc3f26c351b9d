"""What a tombstone says: when and by which role a record was withdrawn, why, and what stood there.

Nothing of what the record held is repeated: a digest lets those who kept a copy recognise it.
"""
from __future__ import annotations

from hashlib import sha256
from typing import Any

from django.urls import reverse

from teardowns.exchange.document import write_document
from teardowns.exchange.schema import unit_schema
from teardowns.exchange.shape import full
from teardowns.reasons import BY_CODE

BY_CONTRIBUTOR, BY_MODERATOR = "its contributor", "a moderator"
KEPT = ("Every version is kept, out of sight. Links to any of them lead here, so that what cites "
        "this record goes on leading somewhere.")


def tombstone_sheet(unit: Any, statement: Any) -> dict:
    """unit : with publication and successor; statement : of the withdrawal, None where none is"""
    publication = unit.publication
    code = statement.code if statement else publication.withdrawal_code
    at = statement.at if statement else publication.withdrawn_at
    return {
        "number": unit.pk, "on": f"{at:%Y-%m-%d}" if at else "",
        "by": _role(unit, statement), "reason": BY_CODE[code].words if code in BY_CODE else "",
        "facts": statement.facts if statement else publication.withdrawal_reason,
        "rule": statement.rule if statement else "",
        "versions": publication.number, "digest": document_digest(publication), "kept": KEPT,
        "successor": unit.successor and {
            "title": f"Unit {unit.successor_id}",
            "href": reverse("unit_detail", args=[unit.successor_id])}}


def document_digest(publication: Any) -> str:
    """SHA-256 of the version's document as the site would hand it out, in hexadecimal."""
    return sha256(write_document(full(publication.document, unit_schema())).encode()).hexdigest()


def _role(unit, statement):
    if statement is None:
        return ""
    return BY_CONTRIBUTOR if statement.by_id == unit.contributor_id else BY_MODERATOR
