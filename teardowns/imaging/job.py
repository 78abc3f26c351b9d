"""What the parent asks of the decoding process, and how big each derivative becomes."""
import json
from dataclasses import asdict, dataclass
from math import floor, sqrt
from typing import Any

from .limits import MAX_DERIVED_PIXELS, MAX_DERIVED_SIDE, SMALL, STEP, WIDTHS, ZOOM_WIDTH
from .structure.found import Piece


@dataclass(frozen=True)
class Job:
    format: str                              # the only one that the decoder may try
    size: tuple[int, int]                    # px, as stored
    orientation: int
    sizes: tuple[tuple[int, int], ...]       # of the derivatives, as shown, smallest first
    pieces: tuple[Piece, ...]
    profile: tuple[Piece, ...]
    profile_packed: bool
    covered: tuple[tuple[float, float, float, float], ...] = ()

    def to_json(self) -> str:
        return json.dumps(asdict(self), default=lambda piece: piece.hex())

    @classmethod
    def from_json(cls, text: str) -> "Job":
        values: dict[str, Any] = json.loads(text)
        for name in ("pieces", "profile"):
            values[name] = [bytes.fromhex(p) if isinstance(p, str) else tuple(p)
                            for p in values[name]]
        for name in ("sizes", "covered"):
            values[name] = [tuple(row) for row in values[name]]
        for name, value in values.items():
            values[name] = tuple(value) if isinstance(value, list) else value
        return cls(**values)


def derived_sizes(width: int, height: int) -> tuple[tuple[int, int], ...]:
    """Width and height of each derivative of a picture of width × height px; none is larger.

    Of two large ones that are nearly alike there is only the larger: encoding takes most time.
    """
    top = min(width, ZOOM_WIDTH, floor(sqrt(MAX_DERIVED_PIXELS * width / height)),
              floor(MAX_DERIVED_SIDE * width / height))
    widths = [w for w in WIDTHS if w < top and (w <= SMALL or w * STEP <= top)] + [max(top, 1)]
    return tuple((w, min(max(round(height * w / width), 1), MAX_DERIVED_SIDE)) for w in widths)
