"""What was read off a photo, in words: lengths beside each other, ways round slots, heat."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from teardowns.imaging.measuring import agreement
from teardowns.models import PhotoReading, PhotoTemperature
from teardowns.reading.quantity import print_quantity

from .links import Links

SHARED = ("Length of the scale", "Clicks on the scale")    # errors that readings by one scale share


def compared(readings: Sequence[PhotoReading], names: Mapping[str, str],
             links: Links) -> list[dict[str, Any]]:
    """Each length, its readings beside the first one, and whether they agree."""
    found: dict[str, list[PhotoReading]] = {}
    for each in readings:
        found.setdefault(each.shows, []).append(each)
    return [{"name": names.get(ref, ref), "evidence": links.evidence(ref) if ref in names else "",
             "rows": [_reading(each, rows[0]) for each in rows]} for ref, rows in found.items()]


def _reading(row, first):
    parts = [{"name": name, "share": print_quantity(share, "m", digits=2)}
             for name, share in row.budget]
    return {"pk": row.pk, "value": print_quantity(row.value, "m", uncertainty=2 * row.uncertainty),
            "author": row.author.get_username(), "day": row.created_at.date().isoformat(),
            "blind": row.blind, "budget": parts, "click": _click(row),
            "groove": "" if row.slot else _groove(row), "slot": slot_told(row),
            "agreement": "" if row is first else _agreement(row, first)}


def _click(row):
    """How far one click may be off, and who says so; nothing for rows that did not keep it."""
    if row.click_uncertainty is None:
        return ""
    source = f"from {len(row.clicks.points)} clicks on one point" if row.clicks else \
        "assumed: nobody clicked one point again and again"
    return f"One click: ± {print_pixels(2 * row.click_uncertainty)} (95 %), {source}."


def _groove(row):
    if row.narrowest_groove is None:
        return ""
    return f"grooves narrower than {_x(row)} bridged"


def slot_told(row: PhotoReading) -> str:
    """Which way it went round the slot and why, in words; nothing where there was none."""
    slot = row.slot
    if not slot:
        return ""
    wide = f"The slot is {print_quantity(slot['width'], 'm', uncertainty=2 * slot['width_u'])} wide"
    straight = print_quantity(slot["straight"], "m", digits=3)
    if not slot["counts"]:
        return f"{wide}, narrower than X, {_x(row)}: it is crossed." + _doubt(
            slot, "If it counts, the way is longer.")
    turns = [slot["corners"].index(point) + 1 for point in slot["way"][1:-1]]
    if not turns:
        return f"{wide}; the straight way does not cross it."
    return (f"It goes round the slot by {'corner' if len(turns) == 1 else 'corners'} "
            f"{' and '.join(map(str, turns))}; straight across would be {straight}. {wide}, X is "
            f"{_x(row)}." + _doubt(slot, "Half of what it adds is in the uncertainty."))


def _doubt(slot, consequence):
    return "" if slot["is_sure"] else \
        f" The picture does not decide whether the slot is wide enough to count. {consequence}"


def _x(row):
    """ "1.0 mm (pollution degree 2, clearance 2.4 mm)" """
    why = [f"pollution degree {row.pollution_degree}"] if row.pollution_degree else []
    if row.clearance is not None:
        why.append(f"required clearance {print_quantity(row.clearance, 'm', digits=2)}")
    x = print_quantity(row.narrowest_groove, "m", digits=2)
    return f"{x} ({', '.join(why)})" if why else x


def print_pixels(pixels: float) -> str:
    return f"{pixels:.1f}\u202fpx"


def temperatures_told(rows: Sequence[PhotoTemperature], names: Mapping[str, str],
                      links: Links) -> list[dict[str, Any]]:
    """What was read off a thermal picture, as it was shown and as it was set right."""
    return [{
        "name": names.get(row.shows, row.shows),
        "evidence": links.evidence(row.shows) if row.shows in names else "",
        "value": print_quantity(row.value, "°C", uncertainty=2 * row.uncertainty),
        "shown": f"{row.reading:g}\u202f°C", "where": "area" if row.shape == "box" else "spot",
        "legend": "" if row.legend_low is None or row.legend_high is None else
        f"{row.legend_low:g} to {row.legend_high:g}\u202f°C",
        "set": f"{row.set_emissivity:g}", "surface": f"{row.emissivity:g}",
        "background": f"{row.background:g}\u202f°C",
        "author": row.author.get_username(), "day": row.created_at.date().isoformat(),
    } for row in rows]


def _agreement(row, first):
    """In words; by one scale, its own error is in both readings and says nothing of them."""
    us = [_own(each, row.scale_id == first.scale_id) for each in (row, first)]
    found = agreement(row.value, us[0], first.value, us[1])
    difference = print_quantity(abs(found.difference), "m", digits=2)
    if found.agrees is None:
        return f"{difference} apart; the evidence does not decide whether they agree"
    return f"{difference} apart; {'agrees' if found.agrees else 'does not agree'} with the first"


def _own(row, is_shared):
    parts = [share for name, share in row.budget if not (is_shared and name in SHARED)]
    return float(np.hypot.reduce(parts)) if parts else None
