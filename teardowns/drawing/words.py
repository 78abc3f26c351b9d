"""Values of a document as the drawings write them."""
from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

Document = Mapping[str, Any]
Row = Mapping[str, Any]

ROLES = {
    "fuse": "fuse", "fusible_resistor": "fusible resistor", "x_capacitor": "X capacitor",
    "discharge_resistor": "discharge resistor", "varistor": "varistor",
    "filter_choke": "filter choke", "rectifier": "rectifier", "bulk_capacitor": "bulk capacitor",
    "primary_controller": "primary controller", "primary_switch": "primary switch",
    "sense_resistor": "sense resistor", "transformer": "transformer", "core": "transformer",
    "optocoupler": "optocoupler", "barrier_capacitor": "barrier capacitor",
    "output_rectifier": "output rectifier", "output_capacitor": "output capacitor",
    "protocol_controller": "protocol controller", "port_converter": "converter of a port",
    "pass_switch": "pass switch", "ballast": "ballast", "other": "other part",
}
CONNECTORS = {"usb_a": "USB Type-A receptacle", "usb_c": "USB Type-C receptacle",
              "micro_b": "USB Micro-B receptacle", "barrel": "coaxial plug on a cord",
              "captive": "captive cord", "terminal": "terminals", "other": "connector"}


def name_of(document: Document) -> str:
    """Maker and model, or the title where neither is known."""
    unit = document["unit"]
    return f"{unit['maker']} {unit['model']}".strip() or unit["title"]


def recorded(rows: list[Row]) -> Iterator[Row]:
    """The rows that carry a value."""
    return (row for row in rows if row["state"] == "recorded")


def measured(document: Document, quantity: str) -> Row | None:
    """The first recorded measurement of a quantity that is not disputed."""
    return next((row for row in recorded(document["measurements"])
                 if row["quantity"] == quantity and row["review_state"] != "disputed"), None)


def value_of(document: Document, quantity: str) -> float | None:
    """Its value, SI; None where nobody recorded one."""
    row = measured(document, quantity)
    return None if row is None else row["value"]


def in_mm(metres: float, digits: int = 1) -> str:
    """ "6.4 mm" """
    return f"{metres * 1e3:.{digits}f} mm"


def designators(row: Row) -> list[str]:
    """One name a piece, "" where none is printed: "C1, C2" for two, "D1 to D4" for four."""
    text = row["designator"]
    count = row["count"]
    if span := re.fullmatch(r"([A-Z]+)(\d+) to \1(\d+)", text):
        letters, first, last = span[1], int(span[2]), int(span[3])
        names = [f"{letters}{number}" for number in range(first, last + 1)]
    else:
        names = [part.strip() for part in re.split(r",| and ", text) if part.strip()]
    return (names + [""] * count)[:max(count, 1)]


def with_doubt(row: Row) -> str:
    """A length with its expanded uncertainty: "7.4 ± 0.3 mm"."""
    factor = {"standard": 2.0, "interval": 1.0, "tolerance": 2.0 / 3 ** 0.5}.get(
        row["uncertainty_kind"])
    if factor is None or not row.get("uncertainty"):
        return in_mm(row["value"])
    doubt = row["uncertainty"] * factor * 1e3
    digits = 1 if doubt >= 0.095 else 2
    return f"{row['value'] * 1e3:.{digits}f} ± {doubt:.{digits}f} mm"
