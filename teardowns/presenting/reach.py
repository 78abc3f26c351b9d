"""How far a unit is spread, as context beside a risk: never multiplied into a level."""
from __future__ import annotations

from typing import Any

from .numbers import THIN


def reach(unit: Any) -> list[str]:
    """What its listing and its price tell, as far as somebody recorded it."""
    known = []
    if unit.listing_reach is not None:
        known.append(f"its listing shows {unit.listing_reach} sales")
    if unit.price is not None:
        known.append(f"price {unit.price}{THIN}{unit.currency}".rstrip())
    if unit.channel != "unknown":
        known.append(unit.get_channel_display())
    return known


def reach_sentence(unit: Any) -> str:
    known = reach(unit)
    if not known:
        return "Reach, which never changes a level: how many of such units were sold is not known."
    return ("Reach, which never changes a level: "
            f"{'; '.join(known)}; how many are in use is not known.")
