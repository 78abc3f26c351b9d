"""The schema of the form, read from its published file, and what it says of a piece of data.

A document is checked against the very file that others use, but the sentences are our own: they
name the place, the cause and the remedy. Only the keywords listed in KEYWORDS are understood; a
test holds the file to them and compares our judgement with a general validator's.
"""
from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from functools import cache
from pathlib import Path
from typing import Any

from teardowns.exchange.problems import at

FILE = Path(__file__).resolve().parents[2] / "fixtures" / "unit-document.schema.json"
FORM = "underplate-unit/1"
KEYWORDS = frozenset((
    "$schema", "$id", "$defs", "$ref", "title", "description", "default", "type", "const", "enum",
    "pattern", "minLength", "maxLength", "minimum", "maximum", "items", "maxItems", "properties",
    "required", "additionalProperties", "propertyNames", "maxProperties",
))
_TYPES: dict[str, tuple[str, type | tuple[type, ...]]] = {
    "object": ("an object in braces", Mapping), "array": ("a list in brackets", list),
    "string": ("text in quotes", str), "number": ("a number", (int, float)),
    "integer": ("a whole number", (int, float)), "boolean": ("true or false", bool),
}


@cache
def unit_schema() -> dict[str, Any]:
    """The schema with every reference replaced by what it refers to."""
    schema = json.loads(FILE.read_text(encoding="utf-8"))
    return _resolved({k: v for k, v in schema.items() if k != "$defs"}, schema["$defs"])


def row_schema(list_name: str) -> dict[str, Any]:
    """What one row of a list of the document looks like."""
    return unit_schema()["properties"][list_name]["items"]


def _resolved(node, definitions):
    if isinstance(node, list):
        return [_resolved(item, definitions) for item in node]
    if not isinstance(node, dict):
        return node
    if "$ref" in node:
        meant = definitions[node["$ref"].removeprefix("#/$defs/")]
        node = meant | {k: v for k, v in node.items() if k != "$ref"}
        return _resolved(node, definitions)
    return {key: _resolved(value, definitions) for key, value in node.items()}


def problems(value: Any, schema: Mapping[str, Any], path: str = "") -> Iterator[str]:
    """Everything that is wrong with a value, each with its path and its remedy."""
    kind = schema.get("type")
    if kind and not _is(value, kind):
        yield at(path, f"is {_shown(value)}, not {_TYPES[kind][0]}; {_remedy(value, kind, schema)}")
    elif kind == "object":
        yield from _problems_of_object(value, schema, path)
    elif kind == "array":
        if len(value) > schema["maxItems"]:
            yield at(path, f"holds {len(value)} entries; at most {schema['maxItems']} are allowed")
        for index, item in enumerate(value):
            yield from problems(item, schema["items"], f"{path}[{index}]")
    elif problem := _scalar_problem(value, schema):
        yield at(path, problem)


def _is(value, kind):
    if isinstance(value, bool):
        return kind == "boolean"
    if kind == "integer" and isinstance(value, float):
        return value.is_integer()
    return isinstance(value, _TYPES[kind][1])


def _remedy(value, kind, schema):
    if value is None:
        return "leave the key out when it is not known"
    if kind in ("number", "integer"):
        return f"write the plain number ({schema['description'].rstrip('.')})"
    return f"write {_TYPES[kind][0]}"


def _problems_of_object(value, schema, path):
    known = schema.get("properties", {})
    extra = schema.get("additionalProperties")
    for name in schema.get("required", ()):
        if name not in value:
            yield at(_inside(path, name), f"is missing; add it ({known[name]['description']})")
    if len(value) > schema.get("maxProperties", len(value)):
        yield at(path, f"holds more than {schema['maxProperties']} entries; leave some out")
    for name, inner in value.items():
        if name in known:
            yield from problems(inner, known[name], _inside(path, name))
        elif extra:
            for problem in problems(name, schema.get("propertyNames", {}), _inside(path, name)):
                yield f"{problem} (the name of this entry)"
            yield from problems(inner, extra, _inside(path, name))
        else:
            yield at(_inside(path, name), _unknown(name, known))


def _inside(path, name):
    return f"{path}.{name}" if path else name


def _unknown(name, known):
    near = get_close_matches(name, known, n=1)
    meant = f'did you mean "{near[0]}"?' if near else f"known here: {', '.join(known)}"
    return f"no such key in the form; {meant}"


def _scalar_problem(value, schema):
    """The first thing wrong with text, a number or a choice; None when nothing is."""
    if "const" in schema and value != schema["const"]:
        return f"is {_shown(value)}; this program reads {_shown(schema['const'])}"
    if "enum" in schema and not (isinstance(value, str) and value in schema["enum"]):
        return f"is {_shown(value)}, which is no choice; {_choices(value, schema['enum'])}"
    if isinstance(value, str):
        return _text_problem(value, schema)
    if isinstance(value, int | float):
        low, high = schema.get("minimum", value), schema.get("maximum", value)
        if not low <= value <= high:
            meaning = schema["description"].rstrip(".")
            return f"is {_shown(value)}; it lies between {low} and {high} ({meaning})"
    return None


def _text_problem(value, schema):
    if len(value) > schema.get("maxLength", len(value)):
        return f"is {len(value)} characters long; shorten it to {schema['maxLength']}"
    if len(value) < schema.get("minLength", 0):
        return f"is empty; fill it in ({schema['description']})"
    if "pattern" in schema and not _pattern(schema["pattern"]).search(value):
        return f"is {_shown(value)}; write it so: {schema['description']}"
    return None


@cache
def _pattern(text):
    # ECMAScript's $ is the very end; Python's also matches before a last line break.
    return re.compile(re.sub(r"\$$", r"\\Z", text))


def _choices(value, choices):
    near = get_close_matches(value[:60], choices, n=1) if isinstance(value, str) else ()
    if near:
        return f'did you mean "{near[0]}"?'
    shown = ", ".join(f'"{choice}"' for choice in choices[:24])
    return f"choose one of {shown}" + (" …" if len(choices) > 24 else "")


def _shown(value):
    if isinstance(value, Mapping | list):
        return "an object" if isinstance(value, Mapping) else "a list"
    text = json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 60 else text[:57] + '…"'
