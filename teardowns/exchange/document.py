"""The unit document: everything recorded of one unit, as data that stands alone.

`read_document` is the only way in for data from outside: what it returns is complete, plain and
consistent. `write_document` is its inverse, one text for one content.
"""
from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from teardowns.exchange.parsing import parse
from teardowns.exchange.problems import DocumentError, refuse_if_any
from teardowns.exchange.rules import broken_rules
from teardowns.exchange.schema import FORM, problems, unit_schema
from teardowns.exchange.shape import brief, full

__all__ = ["FORM", "DocumentError", "counts", "is_sellers_word", "read_document", "witnesses",
           "write_document"]


def read_document(source: str | bytes | Mapping[str, Any]) -> dict[str, Any]:
    """The full document of a JSON text or a dict; `DocumentError` lists all that is wrong."""
    data = parse(source)
    if isinstance(data, Mapping) and data.get("form", FORM) != FORM:
        raise DocumentError([f"form: is not \"{FORM}\", the only one this program reads; "
                             "write it with that form"])
    refuse_if_any(problems(data, unit_schema()))
    document = full(data, unit_schema())
    refuse_if_any(broken_rules(document))        # named by their place in the text that came in
    return in_canonical_order(document)


def in_canonical_order(document: dict[str, Any]) -> dict[str, Any]:
    """The full document with its unordered lists sorted: layers by position, parts by marking."""
    document["stack"].sort(key=lambda layer: layer["position"])
    document["parts"].sort(key=lambda part: part["marking"])
    for part in document["parts"]:
        part["limits"].sort(key=lambda limit: (limit["quantity"], limit["citation"]))
    return document


def write_document(document: Mapping[str, Any]) -> str:
    """The one JSON text of a full document: schema order, defaults left out."""
    return json.dumps(brief(document, unit_schema()), ensure_ascii=False, allow_nan=False,
                      indent=1) + "\n"


def is_sellers_word(row: Mapping[str, Any]) -> bool:
    """Whether a row repeats what the seller says: a claim, and no observation of the unit."""
    return row["how"] == "claimed_by_seller"


def counts(row: Mapping[str, Any], confirmed_only: bool = False) -> bool:
    """Whether a row of evidence takes part: disputed ones never do."""
    if confirmed_only:
        return row["review_state"] in ("confirmed", "remeasured")
    return row["review_state"] != "disputed"


def witnesses(row: Mapping[str, Any], confirmed_only: bool = False) -> bool:
    """Whether a row that takes part says what somebody saw of the unit, not what it is sold for."""
    return counts(row, confirmed_only) and not is_sellers_word(row)
