"""One shape for one content: defaults put in or left out, numbers and order as the schema has them.

In memory a document is full: every key that has a default is there, and a key without a default is
there when its fact is known. In a file it is brief: keys at their default are left out.
"""
from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from typing import Any


def full(value: Any, schema: Mapping[str, Any]) -> Any:
    """A checked value with its defaults, keys in the schema's order, numbers of their one type."""
    kind = schema.get("type")
    if kind == "object":
        return _full_object(value, schema)
    if kind == "array":
        return [full(item, schema["items"]) for item in value]
    if kind == "number":
        return float(value) + 0.0               # no negative zero: databases do not keep it
    return int(value) if kind == "integer" else value


def _full_object(value, schema):
    if "properties" not in schema:              # an open list of named entries
        inner = schema["additionalProperties"]
        return {name: full(value[name], inner) for name in sorted(value)}
    made = {}
    for name, inner in schema["properties"].items():
        if name in value:
            made[name] = full(value[name], inner)
        elif "default" in inner:
            made[name] = deepcopy(inner["default"])
    return made


def brief(value: Any, schema: Mapping[str, Any]) -> Any:
    """The same value without the keys that stand at their default."""
    kind = schema.get("type")
    if kind == "array":
        return [brief(item, schema["items"]) for item in value]
    if kind != "object":
        return value
    if "properties" not in schema:              # PostgreSQL keeps such keys in an order of its own
        return {name: value[name] for name in sorted(value)}
    return {
        name: brief(value[name], inner)
        for name, inner in schema["properties"].items()
        if name in value and ("default" not in inner or value[name] != inner["default"])
    }
