"""What a person wrote, among words that rooms wrote."""
from __future__ import annotations


class AsWritten(str):
    """A caption, the name of an instrument, a heading of a file: no language is put on it."""

    __slots__ = ()
