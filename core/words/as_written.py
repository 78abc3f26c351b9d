"""What a person wrote, among words that rooms wrote."""
from __future__ import annotations


class AsWritten(str):
    """A caption, the name of an instrument, a heading of a file: no language is put on it."""

    __slots__ = ()


class Quoted(AsWritten):
    """The same between quotation marks, which are ours and follow the language."""

    __slots__ = ()

    def __new__(cls, text: str) -> Quoted:
        return super().__new__(cls, f"“{text}”")
