"""Documents drawn from the schema itself, with keys and citations that fit together."""
from hypothesis import strategies as st

from teardowns.engine.quantities import QUANTITIES
from teardowns.exchange.document import FORM
from teardowns.exchange.rules import CITES, EVIDENCE_LISTS, IN_ORDER, LOADS
from teardowns.exchange.schema import row_schema, unit_schema

_ALPHABET = st.characters(exclude_categories=("Cs",), exclude_characters="\0")
_PATTERNS = {
    "^([A-Z]{3})?$": st.sampled_from(["", "EUR", "CZK"]),
    "^[0-9]{4}-[0-9]{2}-[0-9]{2}$": st.dates().map(str),
    "^[0-9A-F]{8}$": st.integers(0, 2**32 - 1).map("{:08X}".format),
    "^[0-9a-f]{64}$": st.integers(0, 2**256 - 1).map("{:064x}".format),
    "^[a-z0-9-]{1,64}$": st.text("abc019-", min_size=1, max_size=6),
    "^[a-z][a-z0-9_]{0,39}$": st.text("abc", min_size=1, max_size=4),
    "^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$": st.uuids().map(str),
    "\\S": st.text(_ALPHABET, max_size=12).map("x".__add__),
}


def values(schema):
    """Values that the schema allows."""
    if "enum" in schema:
        return st.sampled_from(schema["enum"])
    return {
        "boolean": lambda: st.booleans(),
        "integer": lambda: st.integers(schema["minimum"], schema["maximum"]),
        "number": lambda: st.floats(schema["minimum"], schema["maximum"]),
        "string": lambda: _PATTERNS[schema["pattern"]] if "pattern" in schema
        else st.text(_ALPHABET, min_size=schema.get("minLength", 0), max_size=12),
        "array": lambda: st.lists(values(schema["items"]), max_size=3),
        "object": lambda: _objects(schema),
    }[schema["type"]]()


def _objects(schema):
    if "properties" not in schema:
        return st.dictionaries(values(schema["propertyNames"]),
                               values(schema["additionalProperties"]), max_size=3)
    known = {name: values(inner) for name, inner in schema["properties"].items()}
    required = {name: known.pop(name) for name in schema["required"]}
    return st.fixed_dictionaries(required, optional=known)


@st.composite
def documents(draw):
    """Sound documents: each list short, each rule of the form kept."""
    unit = draw(values(unit_schema()["properties"]["unit"]))
    if "price" in unit:
        unit["price"] = round(unit["price"], 2)
    document = {"form": FORM, "unit": unit}
    for name in ("photos", "recordings", "ports", "printed_texts", "components", "claims", "stack",
                 "insulation", "measurements"):
        rows = draw(st.lists(values(row_schema(name)), max_size=2, unique_by=_identity(name)))
        document[name] = [draw(_consistent(name, row, document)) for row in rows]
    document["parts"] = draw(_cited_parts(document["components"]))
    return document


def _identity(name):
    more = {"ports": "label", "photos": "sha256", "recordings": "sha256"}.get(name)
    return (lambda row: row["key"], lambda row: row[more]) if more else lambda row: row["key"]


@st.composite
def _consistent(draw, name, row, document):
    for field, target in CITES.items():
        if name not in EVIDENCE_LISTS or field not in row or (name, field) == ("claims", "port"):
            continue
        if target != "parts":
            keys = [other["key"] for other in document[target]]
            row.pop(field)
            if keys:
                row[field] = draw(st.sampled_from(keys))
    for low, high in IN_ORDER.items():
        if low in row and high in row:
            row[low], row[high] = sorted((row[low], row[high]))
    if name == "stack":
        row["winding"] = "primary" if row["kind"] == "winding" else ""
        row.pop("in_parallel", None)        # parallel to what, is no matter of a single row
    if name in ("insulation", "measurements"):
        _value(draw, row)
    if name == "measurements":
        _limit(draw, row)
        if "port" in row:
            row.pop("all_ports", None)
    return row


def _limit(draw, row):
    quantity = QUANTITIES[row["quantity"]]
    has_limit = row.pop("bound", None) is not None and row.get("state") == "not_readable" \
        and not quantity.is_flag and quantity.code not in LOADS
    row.pop("bound_kind", None)
    if has_limit:
        row["bound"] = draw(st.floats(quantity.low, min(quantity.high, 1e9)))
        row["bound_kind"] = draw(st.sampled_from(["above", "at_least", "below", "at_most"]))


def _value(draw, row):
    quantity = QUANTITIES[row.get("quantity") or row["path"]]
    row.pop("value", None)
    row.pop("duration", None)
    if row.get("state", "recorded") == "recorded":
        inside = st.sampled_from([0.0, 1.0]) if quantity.is_flag else st.floats(
            quantity.low, min(quantity.high, 1e9))
        row["value"] = draw(inside)
    if "uncertainty" in row:
        row["uncertainty_kind"] = draw(st.sampled_from(["standard", "interval", "tolerance"]))
    else:
        row.pop("uncertainty_kind", None)


@st.composite
def _cited_parts(draw, components):
    schema = unit_schema()["properties"]["parts"]["items"]
    parts = {}
    for row in components:
        if "part" in row:
            row["part"] = "p" + row["part"]
            limits = draw(st.lists(
                values(schema["properties"]["limits"]["items"]), max_size=2,
                unique_by=lambda limit: (limit["quantity"], limit["citation"])))
            parts[row["part"]] = draw(values(schema)) | {"marking": row["part"], "limits": limits}
    return list(parts.values())
