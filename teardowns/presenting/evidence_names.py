"""What a calculation sheet says of the evidence behind a number."""
from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from core.words.as_written import AsWritten, Quoted
from core.words.said import said
from teardowns.engine.quantities import QUANTITIES
from teardowns.models import How, Path, Role
from teardowns.reading.quantity import print_quantity

from .numbers import as_recorded


@dataclass(frozen=True, slots=True)
class Cited:
    name: str               # "Bulk capacitance, measured"
    how: str                # "measured"


def quantity_label(code: str) -> str:
    quantity = QUANTITIES.get(code)
    return quantity.label if quantity else code


def component_name(role: str, designator: str) -> AsWritten:
    """`bulk capacitor C1`: the sign on the board is the same in every language."""
    return AsWritten(f"{said(Role(role).label)} {designator}".strip())


def path_name(place: str, path: str) -> AsWritten:
    """`under the tape, creepage`: places are named by who recorded them."""
    return AsWritten(f"{place}, {said(Path(path).label)}")


def cited_rows(document: dict) -> dict[str, Cited]:
    """Every row of a document of the exchange form that a number can rest on, by its ref."""
    found = {"unit/photographed_sides": Cited("board photographs", "counted")}
    for kind, (rows, name) in NAMES.items():
        found |= {f"{kind}/{row['key']}": Cited(name(row), How(row["how"]).label)
                  for row in document[rows]}
    ports = {row["key"]: row["label"] for row in document["ports"]}
    often = Counter(row["quantity"] for row in document["measurements"])
    for row in document["measurements"]:
        if often[row["quantity"]] > 1:
            ref = f"measurement/{row['key']}"
            found[ref] = replace(found[ref], name=told_apart(row, ports))
    return found


def told_apart(row: Mapping[str, Any], ports: Mapping[str, str]) -> AsWritten:
    """`Power held in regulation (65 W, 20 V at the port, 230 V mains, USB-C1)`: one of several.

    ports : label by key
    """
    label = said(quantity_label(row["quantity"]))
    unit = QUANTITIES[row["quantity"]].unit if row["quantity"] in QUANTITIES else "1"
    parts = [as_recorded(row["value"], unit)] if row.get("value") is not None else []
    if row.get("output_voltage") is not None:
        parts.append(f"{as_recorded(row['output_voltage'], 'V')} at the port")
    if row.get("mains_voltage") is not None:
        parts.append(f"{as_recorded(row['mains_voltage'], 'V')} mains")
    if row.get("all_ports"):
        parts.append("all ports together")
    told = [said(part) for part in parts]
    if row.get("port") in ports:
        told.append(ports[row["port"]])
    return AsWritten(f"{label} ({', '.join(told)})" if told else label)


NAMES = {
    "claim": ("claims", lambda row: Quoted(row['text'])),
    "measurement": ("measurements", lambda row: quantity_label(row["quantity"])),
    "component": ("components",
                  lambda row: component_name(row["role"], row["designator"])),
    "stacklayer": ("stack", lambda row: f"layer {row['position']}"),
    "port": ("ports", lambda row: f"port {row['label']}"),
    "insulationobservation": ("insulation", lambda row: path_name(row["place"], row["path"])),
}


def quantity_in_words(entry: dict) -> str:
    """An input of a trace: `15.2 ± 0.3 µF`, `100 V`, `found`."""
    quantity = QUANTITIES.get(entry["code"])
    if entry["value"] is None:
        return "unknown"
    if quantity is not None and quantity.is_flag:
        present = entry["value"] > 0.5
        if entry["how"] == "rulebook default":          # nobody looked: not a finding
            return "taken as present" if present else "taken as absent"
        return "found" if present else "not found"
    if entry["u"]:
        return print_quantity(entry["value"], entry["unit"], uncertainty=entry["u"])
    return as_recorded(entry["value"], entry["unit"])
