"""Where on the bench sheet a row of evidence is written."""
from __future__ import annotations

from teardowns.forms.items import UnitFields
from teardowns.forms.sections import SECTIONS


def place_of(kind: str, which: str = "") -> tuple[str, str] | None:
    """(slug of its section, prefix of its table) of a kind of row; None for what has no section.

    which : the quantity, role or source, where the kind has several places
    """
    return PLACES.get((kind, which)) or PLACES.get((kind, ""))


PLACES = {
    presence: (section.slug, item.prefix)
    for section in reversed(SECTIONS) for item in section.items
    if not isinstance(item, UnitFields) for presence in item.presence
}
