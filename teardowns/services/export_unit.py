"""From rows to unit documents: the whole evidence of many units in a fixed number of queries."""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any

from teardowns.exchange.document import FORM, in_canonical_order
from teardowns.exchange.rules import CITES
from teardowns.exchange.schema import row_schema, unit_schema
from teardowns.exchange.shape import full
from teardowns.models import (
    Claim,
    Component,
    InsulationObservation,
    Measurement,
    Photo,
    Port,
    PrintedText,
    Recording,
    StackLayer,
    Unit,
)

MODELS: dict[str, Any] = {
    "printed_texts": PrintedText, "claims": Claim, "ports": Port, "components": Component,
    "stack": StackLayer, "insulation": InsulationObservation, "measurements": Measurement,
    "photos": Photo, "recordings": Recording,
}
Rows = Mapping[str, list[dict[str, Any]]]     # by list of the form, as the tables have them
PART = {name: f"part__{name}" for name in ("marking", "function", "package", "note")}
LIMIT = {name: f"part__limits__{name}" for name in ("quantity", "value", "citation")}


def unit_document(unit: Unit) -> dict[str, Any]:
    """Everything recorded of a unit, as a full document of the exchange form."""
    return unit_documents([unit])[0]


def unit_documents(units: Iterable[Unit], rows: Rows | None = None) -> list[dict[str, Any]]:
    """The documents of many units, in their order; as many queries for a thousand as for one.

    rows : of these units, where they were read already
    """
    units = list(units)
    rows = dict(read_rows(units)) if rows is None else dict(rows)
    library = _library(rows["components"])
    rows["components"] = list({row["pk"]: row for row in rows["components"]}.values())
    parts = {part["marking"]: part for part in library.values()}
    names: dict[str, dict[int, Any]] = {
        name: {row["pk"]: row["key"] for row in rows[name]} for name in MODELS}
    names["parts"] = {pk: part["marking"] for pk, part in library.items()}
    lists = {name: _by_unit(name, found, names) for name, found in rows.items()}
    documents = []
    for unit in units:
        document: dict[str, Any] = {"form": FORM, "unit": fields_of(unit)}
        document |= {name: lists[name][unit.pk] for name in MODELS}
        cited = {row["part"] for row in document["components"] if "part" in row}
        document["parts"] = [parts[marking] for marking in cited]
        documents.append(in_canonical_order(full(document, unit_schema())))
    return documents


def read_rows(units: Iterable[Unit]) -> Rows:
    """All rows that the documents of these units are made of."""
    pks = [unit.pk for unit in units]
    return {name: _rows(name, pks) for name in MODELS}


def foreign_column(name: str, field: str) -> str | None:
    """The list whose row a field cites, where the column is a foreign key."""
    column = MODELS[name]._meta.get_field(field)
    return CITES[field] if column.is_relation else None


def _rows(name, pks):
    meta = MODELS[name]._meta
    columns = [meta.get_field(field).attname for field in row_schema(name)["properties"]]
    order = ["pk"]
    if name == "components":       # with their parts and limits: a row a limit, one query less
        columns += [*PART.values(), *LIMIT.values()]
        order.append("part__limits__pk")
    found = MODELS[name].objects.filter(unit_id__in=pks).order_by(*order)
    if name in ("photos", "recordings"):
        found = found.filter(set_aside=False)
    return list(found.values("pk", "unit_id", *columns))


def _by_unit(name, rows, names):
    """Rows of the form by unit: facts that are not known left out, rows cited by their key."""
    targets = {field: foreign_column(name, field) for field in row_schema(name)["properties"]}
    grouped = defaultdict(list)
    for row in rows:
        made = {}
        for field, target in targets.items():
            value = row[f"{field}_id" if target else field]
            if value is not None:
                made[field] = names[target][value] if target else value
        grouped[row["unit_id"]].append(made)
    return grouped


def _library(components) -> dict[int, dict[str, Any]]:
    """The parts that the components cite, each with its limits once."""
    parts: dict[int, dict[str, Any]] = {}
    for row in components:
        if row["part_id"] is None:
            continue
        part = parts.setdefault(
            row["part_id"], {name: row[path] for name, path in PART.items()} | {"limits": []})
        limit = {name: row[path] for name, path in LIMIT.items()}
        if limit["citation"] is not None and limit not in part["limits"]:
            part["limits"].append(limit)
    return parts


def fields_of(unit: Any) -> dict[str, Any]:
    """What the form keeps of the unit itself."""
    names = unit_schema()["properties"]["unit"]["properties"]
    made = {name: getattr(unit, name) for name in names if getattr(unit, name) is not None}
    made["uid"] = str(unit.uid)
    if "obtained_on" in made:
        made["obtained_on"] = unit.obtained_on.isoformat()
    return made
