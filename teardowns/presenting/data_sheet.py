"""What the page about data says of its file."""
from __future__ import annotations

from typing import Any

from .moderation_times import moment

MEGABYTE = 1_000_000


def export_lines(export: Any) -> list[tuple[str, str]]:
    return [("Records", f"{export.units:,}".replace(",", "\u202f")),
            ("Made", moment(export.made_at)), ("Rulebook", export.rulebook),
            ("Size", f"{export.byte_size / MEGABYTE:.1f}\u202fMB"), ("SHA-256", export.sha256)]
