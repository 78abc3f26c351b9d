"""Which rules and evidence a calculation sheet rests on, and whether the unit's page agrees."""
from __future__ import annotations

from .record_foot import digest_text, rulebook_text


def sheet_version(stored, report: dict) -> dict:
    """Context: the sheet's own version, and a remark where the stored assessment has another.

    stored : the assessment that the unit's page shows, or None
    """
    version, digest = report["rulebook"], report["evidence_digest"]
    return {
        "rulebook": rulebook_text(version),
        "digest": digest_text(digest),
        "remark": remark(stored, version, digest),
    }


def remark(stored, version: str, digest: str) -> str:
    if stored is None:
        return "This unit has no stored assessment; this sheet was computed just now."
    if stored.rulebook != version:
        return (
            f"The stored assessment is of rulebook {rulebook_text(stored.rulebook)}; this sheet is "
            f"of {rulebook_text(version)}, so its numbers may differ from those on the unit’s page."
        )
    if stored.evidence_digest != digest:
        return (
            "The evidence has changed since the stored assessment: these numbers may differ from "
            "those on the unit’s page."
        )
    return ""
