"""A question to the list of units as the query of an address."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from urllib.parse import urlencode


def query_of(text: str, choices: Mapping[str, Sequence[str]], sort: str = "",
             after: str = "") -> str:
    """text : words as typed, or ""; choices : codes by facet; after : where the page begins"""
    asked = [("q", text), *((facet, code) for facet, codes in choices.items() for code in codes),
             ("sort", sort), ("after", after)]
    return f"?{urlencode([(name, value) for name, value in asked if value])}"
