"""MathML as the rulebook writes it → a small tree of plain data, and its words for who cannot see.
"""
from __future__ import annotations

from collections.abc import Callable
from typing import Any
from xml.etree.ElementTree import Element

PAIRS = {"mfrac": "frac", "msub": "sub", "msup": "sup"}
LEAVES = {"mi": "i", "mn": "n", "mo": "o", "mtext": "t"}
Node = dict[str, Any]


def formula_of(node: Element) -> Node:
    """`{"k": kind, "c": children}`, or `{"k": kind, "t": text}` at a leaf."""
    if node.tag in LEAVES:
        kind = "t" if node.get("mathvariant") == "normal" else LEAVES[node.tag]
        return {"k": kind, "t": node.text or ""}
    kind = PAIRS.get(node.tag) or ("sqrt" if node.tag == "msqrt" else "row")
    return {"k": kind, "c": [formula_of(child) for child in node]}


def in_words(node: Node, say: Callable[[str], str] = str) -> str:
    """One line: `P = (V squared) / R`, near enough to be read out. say : of `Ink`"""
    if "t" in node:
        return node["t"]
    parts = [in_words(child, say) for child in node["c"]]
    if node["k"] == "frac":
        return f"({parts[0]}) / ({parts[1]})"
    if node["k"] == "sub":
        return f"{parts[0]} {parts[1]}"
    if node["k"] == "sup":
        return f"{parts[0]} {say('to the power of')} {parts[1]}"
    if node["k"] == "sqrt":
        return f"{say('root of')} ({' '.join(parts)})"
    return " ".join(parts)
