"""What a schema cannot say of a document: how its rows hang together."""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from teardowns.engine.quantities import QUANTITIES

Document = Mapping[str, Any]
EVIDENCE_LISTS = (
    "printed_texts", "claims", "ports", "components", "stack", "insulation", "measurements",
)
LISTS = (*EVIDENCE_LISTS, "photos", "recordings", "parts")
IDENTITY = dict.fromkeys(LISTS, "key") | {"parts": "marking"}
CITES = {               # key of a row → the list whose key it names
    "photo": "photos", "recording": "recordings", "printed_text": "printed_texts",
    "port": "ports", "component": "components", "part": "parts",
}
IN_ORDER = {"voltage_low": "voltage_high", "frequency_low": "frequency_high", "start": "end"}
TEN_MINUTES = 600.0     # s
# A load is what was asked for, held or lost: no instrument has to show it.
LOADS = ("sustained_power", "peak_power", "failed_power")


def broken_rules(document: Document) -> Iterator[str]:
    """Problems of a full document whose single values are known to be sound."""
    yield from _of_unit(document["unit"])
    yield from _repeated(document)
    names = {name: {row[IDENTITY[name]] for row in document[name]} for name in LISTS}
    for name in EVIDENCE_LISTS:
        for index, row in enumerate(document[name]):
            path = f"{name}[{index}]"
            yield from _dangling(names, name, row, path)
            yield from _of_row(name, row, path)
    yield from _parallel_to_nothing(document["stack"])
    yield from _shorter_along_the_surface(document["insulation"])
    yield from _of_parts(document)


def _of_unit(unit):
    if "obtained_on" in unit:
        try:
            date.fromisoformat(unit["obtained_on"])
        except ValueError:
            yield f"unit.obtained_on: {unit['obtained_on']} is no day of the calendar; correct it"
    if "price" in unit and round(unit["price"], 2) != unit["price"]:
        yield f"unit.price: {unit['price']} has more than two decimals; round it"


def _repeated(document):
    for name, key in (*IDENTITY.items(), ("ports", "label"), ("photos", "sha256"),
                      ("recordings", "sha256")):
        first: dict[str, int] = {}
        for index, row in enumerate(document[name]):
            where = first.setdefault(row[key], index)
            if where != index:
                yield (f"{name}[{index}].{key}: \"{row[key]}\" stands already at {name}[{where}]; "
                       "give each its own")


def _dangling(names, name, row, path):
    for field, target in CITES.items():
        if (name, field) == ("claims", "port"):       # that one is as printed, no key
            continue
        if field in row and row[field] not in names[target]:
            yield (f"{path}.{field}: there is no \"{row[field]}\" in {target}; add it there, or "
                   "leave this key out")


def _of_row(name, row, path):
    if "uncertainty_kind" in row:
        yield from _of_value(row, path, QUANTITIES[row.get("quantity") or row["path"]])
    for low, high in IN_ORDER.items():
        if low in row and high in row and row[low] > row[high]:
            yield f"{path}.{low}: {row[low]} lies above {high} {row[high]}; swap the two"
    if name == "measurements":
        yield from _of_bound(row, path, QUANTITIES[row["quantity"]])
        if row["all_ports"] and "port" in row:
            yield (f"{path}.all_ports: it was taken at all ports together, and at one of them; "
                   "leave out port or all_ports")
    if name == "stack":
        yield from _of_layer(row, path)


def _of_layer(row, path):
    if (row["kind"] == "winding") != (row["winding"] != ""):
        yield (f"{path}.winding: a layer of kind \"winding\" says which winding it is, a layer of "
               "insulation does not; correct kind or winding")
    if row["kind"] != "winding" and row["in_parallel"]:
        yield (f"{path}.in_parallel: only windings lie in parallel; leave it out, or set kind to "
               "winding")


def _parallel_to_nothing(stack):
    """A layer in parallel needs one of its winding closer to the core; places may be entered in
    any order."""
    first: dict[str, int] = {}
    for row in stack:
        if row["state"] != "not_found":
            first[row["winding"]] = min(row["position"], first.get(row["winding"], row["position"]))
    for index, row in enumerate(stack):
        if row["in_parallel"] and row["position"] <= first.get(row["winding"], row["position"]):
            yield (f"stack[{index}].in_parallel: no layer of the {row['winding']} winding lies "
                   "before it; correct position or winding, or leave it out")


def _shorter_along_the_surface(paths):
    """The way along a surface is never shorter than the one through air (IEC 62368-1, 5.4.3)."""
    air: dict[tuple[str, str], float] = {}
    for row in paths:
        if row["path"] == "clearance" and "value" in row:
            air.setdefault(_gap(row), row["value"])
    for index, row in enumerate(paths):
        if row["path"] == "creepage" and row.get("value", 1.0) < air.get(_gap(row), 0.0):
            yield (f"insulation[{index}].value: the creepage is shorter than the clearance of the "
                   "same place; check which is which, or name the places apart")


def _gap(row):
    return row["barrier"], row["place"].casefold()


def _of_value(row, path, quantity):
    recorded = row["state"] == "recorded"
    if recorded and "value" not in row:
        yield (f"{path}.value: is missing; enter it, or set state to not_looked, not_found or "
               "not_readable")
    if not recorded and "value" in row:
        yield (f"{path}.value: state is {row['state']}; leave the value out, or set state to "
               "recorded")
    if ("uncertainty" in row) != (row["uncertainty_kind"] != ""):
        yield (f"{path}.uncertainty: uncertainty and uncertainty_kind come together; add the one "
               "that is missing (standard, interval or tolerance)")
    if recorded and "value" in row:
        yield from _out_of_range(row, path, quantity)


def _of_bound(row, path, quantity):
    if ("bound" in row) != (row["bound_kind"] != ""):
        yield (f"{path}.bound: bound and bound_kind come together; add the one that is missing "
               "(above, at_least, below or at_most)")
    if "bound" not in row:
        return
    if row["state"] != "not_readable":
        yield (f"{path}.bound: a limit stands where no value could be read, and state is "
               f"{row['state']}; set state to not_readable, or leave bound out")
    if quantity.is_flag or quantity.code in LOADS:
        yield f"{path}.bound: {quantity.label} has no limit; state its value, or leave bound out"
    elif not quantity.low <= row["bound"] <= quantity.high:
        yield (f"{path}.bound: {row['bound']} cannot be; {quantity.label} lies between "
               f"{quantity.low:g} and {quantity.high:g} (written in SI, without prefix)")


def _out_of_range(row, path, quantity):
    value, unit = row["value"], "" if quantity.unit == "1" else f" {quantity.unit}"
    if quantity.is_flag and value not in (0.0, 1.0):
        yield (f"{path}.value: {quantity.label} is 1 (present) or 0 (looked, not found), "
               f"not {value}")
    elif not quantity.low <= value <= quantity.high:
        yield (f"{path}.value: {value}{unit} cannot be; {quantity.label} lies between "
               f"{quantity.low:g} and {quantity.high:g}{unit} (written in SI, without prefix)")
    if quantity.code == "sustained_power" and row.get("duration", TEN_MINUTES) < TEN_MINUTES:
        yield (f"{path}.duration: {quantity.label} means at least {TEN_MINUTES:g} s; record a "
               "shorter run as peak_power")


def _of_parts(document):
    cited = {row["part"] for row in document["components"] if "part" in row}
    for index, part in enumerate(document["parts"]):
        if part["marking"] not in cited:
            yield (f"parts[{index}]: no component cites it; name it as a component's part, or "
                   "remove it")
        stated = [(limit["quantity"], limit["citation"]) for limit in part["limits"]]
        for place, limit in enumerate(stated):
            if limit in stated[:place]:
                yield (f"parts[{index}].limits[{place}]: the same quantity with the same citation "
                       "stands above; keep one")


