"""Read the text of a rating plate, a package or a listing as structured claims."""

from teardowns.reading.plates.claims import PlateClaim, PlateError, PlateReading, Span
from teardowns.reading.plates.read import read_plate

__all__ = ["PlateClaim", "PlateError", "PlateReading", "Span", "read_plate"]
