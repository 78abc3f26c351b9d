"""What a drawn picture is: the image, its words, its marks and its scale."""
from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from PIL import Image

STAGES = ("as_received", "plate", "ports", "opened", "component_side", "solder_side",
          "transformer", "thermal", "waveforms")
Points = tuple[tuple[float, float], ...]        # pixels; origin: outer corner of the top left one


class Mark(NamedTuple):
    """A place on a picture and the row that it shows, such as "component/bulk"."""

    shape: str              # point, line, path, polygon or box (two opposite corners)
    points: Points
    label: str
    shows: str


class Scale(NamedTuple):
    """Two points of a known length, or four corners of a known rectangle."""

    points: Points
    lengths: tuple[float, ...]  # one length, or width and height. [m]
    length_u: float             # standard uncertainty of each. [m]
    plane: str                  # what lies in the plane of the scale


@dataclass(frozen=True, slots=True)
class Picture:
    """One drawing of a unit."""

    key: str                # unique in the unit
    stage: str              # of STAGES
    caption: str
    alt: str
    image: Image.Image      # RGB
    marks: tuple[Mark, ...] = ()
    scale: Scale | None = None
