"""Decode what is printed on a component, by component kind first."""

from teardowns.reading.markings.decode import KINDS, decode_marking
from teardowns.reading.markings.decoding import Decoding, MarkingError, OtherReading

__all__ = ["KINDS", "Decoding", "MarkingError", "OtherReading", "decode_marking"]
