"""The record's foot: which sample, which rulebook, which evidence, when."""
from __future__ import annotations

from core.words.as_written import AsWritten
from core.words.said import said

from .numbers import THIN

UNTRACED = "Apparent origin and authenticity of the unit were not established."
SIDES = ("of no side", "of one side", "of both sides")


def record_foot(unit, assessment) -> list[tuple[str, str]]:
    """Term and description, in order."""
    found = [
        ("Sample", sample(unit)),
        ("Board", f"Photographs {SIDES[unit.photographed_sides]}"),
        ("Entered by", AsWritten(unit.contributor.get_username())),
    ]
    if assessment is None:
        return [*found, ("Assessment", "none yet")]
    return [
        *found,
        ("Rulebook", rulebook_text(assessment.rulebook)),
        ("Evidence", digest_text(assessment.evidence_digest)),
        ("Assessed", f"{assessment.created_at:%Y-%m-%d %H:%M} UTC"),
        ("Recompute", "Same rulebook and same evidence give the same bytes."),
    ]


def sample(unit) -> str:
    origin = unit.get_channel_display()
    facts = ["One unit", origin if unit.channel != "unknown" else "source not known"]
    facts += [f"obtained {unit.obtained_on.isoformat()}"] if unit.obtained_on else []
    facts += [f"price {unit.price}{THIN}{unit.currency}".rstrip()] if unit.price is not None else []
    reach = f"Its listing showed {unit.listing_reach} sales." \
        if unit.listing_reach is not None else ""
    sentences = filter(None, (", ".join(map(said, facts)) + ".", said(reach), said(UNTRACED)))
    return AsWritten(" ".join(sentences))


def record_line(unit) -> str:
    """`Unit 417 · published 2026-04-02`."""
    status = unit.get_status_display()
    if unit.published_at and unit.status == "published":
        status = f"first published {unit.published_at.date().isoformat()}"
    return f"Unit {unit.pk} · {status}"


def rulebook_text(version: str) -> str:
    """`edition 1, 0a1b2c3d, reference set set3-4e5f6a7b, scenarios risk2-0a1b2c3d`."""
    edition, *digests = version.split("+")
    if not digests:
        return version
    sets = (f", {'scenarios' if name.startswith('risk') else 'reference set'} {name}"
            for name in digests[1:])
    return f"edition {edition}, {digests[0]}{''.join(sets)}"


def digest_text(digest: str) -> str:
    """The first 16 digits in groups of four; the whole stands in the data."""
    groups = [digest[i:i + 4] for i in range(0, 16, 4)]
    return AsWritten(f"sha256 {' '.join(groups)} …")
