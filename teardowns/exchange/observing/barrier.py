"""The capacitors across the barrier together: the most that may let current through."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

UNREAD_TOLERANCE = 0.2      # ± of a capacitance whose tolerance was not read


def most_across(parts: Sequence[Mapping[str, Any]]) -> dict[str, float]:
    """Largest capacitance from the mains side to the output, by what is printed. [F]

    Several rows lie in parallel, the pieces of one row too unless they lie in series. Nothing
    where a value is missing: a sum without it would be too small.
    """
    rows = [row for row in parts if is_across(row) and row["state"] != "not_found"]
    if not rows or not all(row["state"] == "recorded" and row.get("nominal") for row in rows):
        return {}
    return {"barrier_capacitance_most": sum(_most(row) for row in rows)}


def is_across(row):
    """Whether a capacitor bridges mains side and output, by what is recorded or by its role."""
    usual = row["bridges"] == "" and row["role"] == "barrier_capacitor"
    return usual or (row["bridges"] == "PRI_SEC"
                     and row["role"] in ("barrier_capacitor", "x_capacitor"))


def _most(row):
    pieces = 1 / row["count"] if row["in_series"] else row["count"]
    return row["nominal"] * (1 + row.get("tolerance", UNREAD_TOLERANCE)) * pieces
