"""What the lists and fields of a unit document are called, and in which unit a field is printed."""
from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from core.words.as_written import AsWritten
from teardowns.engine.quantities import QUANTITIES
from teardowns.models import (
    Claim,
    Component,
    InsulationObservation,
    Measurement,
    Photo,
    Port,
    PrintedText,
    Recording,
    Source,
    StackLayer,
    Unit,
)

from .evidence_cells import COMPONENT_UNITS
from .evidence_names import NAMES, told_apart

# List of the form → heading, and the model whose words its choices have.
LISTS: dict[str, tuple[str, Any]] = {
    "": ("The unit", Unit),
    "printed_texts": ("Printed texts", PrintedText),
    "claims": ("Printed claims", Claim),
    "ports": ("Ports", Port),
    "components": ("Components", Component),
    "stack": ("Transformer, from the core outward", StackLayer),
    "insulation": ("Insulation paths", InsulationObservation),
    "measurements": ("Measurements", Measurement),
    "photos": ("Photos", Photo),
    "recordings": ("Logs of instruments", Recording),
    "parts": ("Parts of the library that it cites", None),
}
REFS = {rows: kind for kind, (rows, _) in NAMES.items()}
TO_ROWS = dict(NAMES.values())
LABELS = {
    "key": "Name in the record", "how": "How obtained", "state": "Whether looked for",
    "review_state": "Review", "recording": "Log", "start": "Begins at character",
    "end": "Ends at character", "shared": "Shared between ports", "mark": "Mark or protocol",
    "printed_text": "Printed text", "wiring": "Data lines", "cc_current": "Current that CC offers",
    "in_series": "Pieces in series", "bridges": "Bridges", "part": "Part of the library",
    "nominal": "Value of one piece", "on_resistance": "Resistance switched on",
    "in_parallel": "In parallel with the layer before", "documented": "Data sheet of the type seen",
    "sleeved": "Leads sleeved", "withstood": "One layer withstood", "slot": "Sizes of the shape",
    "coated": "Coated or potted over", "contaminated": "Conductive dirt across it",
    "ambient": "Air around it", "output_voltage": "Voltage at the port",
    "output_current": "Current drawn", "all_ports": "All ports loaded together",
    "sha256": "File (sha256)", "media_type": "Type of the file", "byte_size": "Size of the file",
    "original_name": "Name of the file", "alt": "What is seen", "extracted": "Read out of it",
    "columns": "Columns", "channel": "Where from", "obtained_on": "Obtained on",
    "listing_reach": "Sales that the listing showed", "photographed_sides":
    "Sides of the board photographed", "marking": "Marking", "thickness": "Thickness of one layer",
}
UNITS = {
    "voltage_low": "V", "voltage_high": "V", "frequency_low": "Hz", "frequency_high": "Hz",
    "current": "A", "power": "W", "cc_current": "A", "rated_voltage": "V", "rated_current": "A",
    "rated_power": "W", "ripple_current": "A", "on_resistance": "Ω", "diameter": "m",
    "length": "m", "bare_diameter": "m", "thickness": "m", "margin_left": "m",
    "margin_right": "m", "withstood": "V", "mains_voltage": "V", "mains_frequency": "Hz",
    "output_voltage": "V", "output_current": "A", "duration": "s", "ambient": "°C",
}
LISTED_AS = {"parts": "marking", "photos": "caption", "recordings": "caption"}


def field_label(name: str) -> str:
    return LABELS.get(name, name.replace("_", " ").capitalize())


def field_unit(rows: str, name: str, row: Mapping[str, Any]) -> str:
    """In which unit a number of a row is printed; "1" where it has none."""
    if name == "value":
        quantity = QUANTITIES.get(row.get("quantity") or row.get("path", ""))
        return quantity.unit if quantity else "1"
    if name == "nominal":
        return COMPONENT_UNITS.get(row.get("role", ""), "1")
    return UNITS.get(name, "1")


def row_name(rows: str, row: Mapping[str, Any]) -> str:
    """What a person calls a row of a list."""
    if rows in TO_ROWS:
        return _capital(TO_ROWS[rows](row))
    if rows == "printed_texts":
        return _capital(Source(row["source"]).label)
    return AsWritten(row.get(LISTED_AS[rows]) or row["key"])


def name_in(rows: str, row: Mapping[str, Any], *documents: Mapping[str, Any]) -> str:
    """The same, told apart from other readings of its quantity in any of the documents."""
    if rows == "measurements" and any(
            sum(one["quantity"] == row["quantity"] for one in document["measurements"]) > 1
            for document in documents):
        return told_apart(row, {port["key"]: port["label"] for document in documents
                                for port in document["ports"]})
    return row_name(rows, row)


def row_ref(rows: str, key: str) -> str:
    """The name by which pages know a row of evidence, "" of what is none."""
    return f"{REFS[rows]}/{key}" if rows in REFS else ""


def choice_label(rows: str, name: str, value: Any) -> str | None:
    """The words of a choice; None where the field has no choices."""
    model = LISTS[rows][1]
    if model is None or name == "key" or isinstance(value, list | dict):
        return None
    known = dict(model._meta.get_field(name).flatchoices)
    return str(known[value]) if value in known else None


def _capital(text: str) -> str:
    return type(text)(text[:1].upper() + text[1:])
