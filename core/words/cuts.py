"""Where a text comes apart: between sentences, the items of a list, words and their value.

A cut is piece, joint, piece, …: the pieces are said each by itself, a joint by its own word.
"""
from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import takewhile

from .numbers import is_measure

Cut = list[str]

QUOTED = "(?![^“]*”)"         # what stands in quotation marks is one piece
SENTENCE_END = re.compile(rf"(?<=[.?!:;])(\s+)(?=[“‘(A-ZÄÖÜ0-9]){QUOTED}")
APART = re.compile(rf"{SENTENCE_END.pattern}|(?:; | · ){QUOTED}")     # hardly within one place
# How a list is joined, the weakest joint first: "a, b; c" is two pieces, and one of them has two.
# What stands in brackets is no list of its own.
JOINTS = tuple(re.compile(rf"({joint})(?![^()]*\)){QUOTED}") for joint in (
    "; | · ", ": ", ", and |, or |, ", " and | or "))
BLANKS = re.compile("([ \u00a0\u2009\u202f])")
COUNTED = re.compile(rf"([−+-]?\d+(?:[.,]\d+)?(?: of \d+)?\.?){BLANKS.pattern}(\D.*)", re.DOTALL)
ASIDE = re.compile(r"(.+?) \(((?:[^()]|\([^()]*\))*)\)", re.DOTALL)
CAPITALS = re.compile(r"[^\W\d_a-zäöüß]+[A-ZÄÖÜ\d.,+−/-]*[a-z]?|[A-Za-z\d]+_\w+,?")


def sentences(text: str) -> Cut:
    return SENTENCE_END.split(text)


def items(text: str) -> Cut:
    """Of a list, cut at its weakest joint."""
    return next((cut for joint in JOINTS if len(cut := joint.split(text)) > 1), [text])


def values(text: str) -> Iterator[Cut]:
    """Words before a value, or after a number: "primary switch 102 °C", "52 turns"."""
    parts = BLANKS.split(text)
    ends = takewhile(lambda end: is_no_word(parts[end + 1]), range(len(parts) - 2, 0, -2))
    for end in reversed(list(ends)):
        yield ["".join(parts[:end]), parts[end], "".join(parts[end + 1:])]
    if found := COUNTED.fullmatch(text):
        yield list(found.groups())


def aside(text: str) -> tuple[str, str] | None:
    """Words, and what stands in brackets behind them."""
    found = ASIDE.fullmatch(text)
    return (found[1], found[2]) if found else None


def is_no_word(text: str) -> bool:
    """Values and names that are the same in each language: "USB-C1 102 °C", "PRI_SEC"."""
    return all(is_measure(one) or CAPITALS.fullmatch(one) for one in text.split())
