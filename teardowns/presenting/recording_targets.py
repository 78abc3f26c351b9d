"""The rows of evidence that a result of a log can go into, and those it went into."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.urls import reverse

from teardowns.engine.quantities import QUANTITIES
from teardowns.models import Recording
from teardowns.reading.quantity import print_quantity

from .evidence_cells import limit_text


def shown_targets(targets: Mapping[str, Sequence[Any]]) -> dict[str, list[dict[str, str]]]:
    """By name, what a choice offers: its value and its words. targets : of `targets_of`"""
    return {name: [{"value": f"{one.key}@{one.version}", "label": _label(one.row)}
                   for one in rows] for name, rows in targets.items()}


def _label(row):
    if row is None:
        return "a row of its own"
    if row.bound_kind:
        unit = QUANTITIES[row.quantity].unit
        return f"in place of {limit_text(row.bound_kind, row.bound, unit)}"
    if row.value is None:
        return f"the row that says “{row.get_state_display()}”"
    at = [] if row.output_voltage is None else [print_quantity(row.output_voltage, "V")]
    mains = [] if row.mains_voltage is None else [
        f"{print_quantity(row.mains_voltage, 'V')} mains"]
    port = [] if row.port is None else [f"port {row.port.label}"]
    value = print_quantity(row.value, QUANTITIES[row.quantity].unit)
    return ", ".join([f"in place of {value}", *port, *at, *mains])


def taken_rows(recording: Recording, taken: Mapping[str, Mapping[str, Any]]
               ) -> dict[str, dict[str, Any]]:
    """By name, the row that has its value from the log. taken : of `taken_from`"""
    page = reverse("unit_detail", args=[recording.unit_id])
    return {name: {
        "address": f"{page}#measurement-{row['key']}", "is_current": row["is_current"],
        "value": print_quantity(row["value"], QUANTITIES[row["reading"].code].unit, digits=4),
        "day": f"{row['reading'].created_at:%Y-%m-%d}",
    } for name, row in taken.items()}
