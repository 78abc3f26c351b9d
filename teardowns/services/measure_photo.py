"""Read a length off a photo: the evidence gets the value, the photo keeps the points behind it."""
from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from math import nan
from typing import Any

from django.db import transaction

from teardowns import access
from teardowns.engine.requirements.surface_path import narrowest_width
from teardowns.imaging.measuring import CLICK_U, Reading, measure
from teardowns.imaging.points import Points
from teardowns.imaging.surface_path import counted_length
from teardowns.models import AuditEntry, Photo, PhotoReading, PhotoScale, UncertaintyKind
from teardowns.models.evidence import Evidence

from .annotate_photo import put_mark
from .save_section import RowChange, SavedSection, save_section
from .scale_photo import scale_of

SECTION = "photos"
USUAL_GROOVE = float(narrowest_width(2.0, nan))      # m: pollution degree 2, indoors and dry


@dataclass(frozen=True)
class Drawn:
    """What was drawn to be measured."""

    shape: str                       # "line" or "path"
    points: Points                   # px
    scale: PhotoScale
    click_u: float = CLICK_U         # px, k = 1
    off_plane: bool = False          # it lies above or below the plane of the scale
    groove: float | None = None      # m: the surface is followed, narrower grooves are bridged


def read_length(photo: Photo, drawn: Drawn) -> Reading:
    """Raises ValueError, in the user's words."""
    along = None if drawn.groove is None else partial(counted_length, narrowest=drawn.groove)
    size = (photo.width or 0, photo.height or 0)
    return measure(scale_of(drawn.scale), drawn.points, drawn.click_u, size=size,
                   off_plane=drawn.off_plane, along=along)


@transaction.atomic
def measure_photo(
    *, author, photo: Photo, drawn: Drawn, model: type[Evidence], key: str, version: int,
    values: dict[str, Any], label: str,
) -> tuple[PhotoReading, SavedSection]:
    """The row of evidence with the length that was drawn, a mark that shows where, the reading.

    Raises Http404, ValueError, StaleRows, SaveRefused.
    """
    reading = read_length(photo, drawn)
    saved = save_section(author, photo.unit_id, SECTION, [RowChange(model, key, version, values | {
        "value": reading.value, "uncertainty": reading.uncertainty,
        "uncertainty_kind": UncertaintyKind.STANDARD, "photo": photo})])
    shows = f"{model._meta.model_name}/{key}"
    put_mark(author=author, photo=photo, shape=drawn.shape, points=drawn.points, label=label,
             shows=shows)
    return _kept(author, photo, drawn, reading, shows, blind=False), saved


@transaction.atomic
def measure_again(*, reviewer, photo: Photo, drawn: Drawn, shows: str) -> PhotoReading:
    """A second reading by somebody who did not see the first; the evidence stays as it is.

    Raises Http404 or ValueError.
    """
    photo = access.photo_to_see(reviewer, photo.unit_id, photo.key)
    return _kept(reviewer, photo, drawn, read_length(photo, drawn), shows, blind=True)


def _kept(author, photo, drawn, reading, shows, blind):
    row = PhotoReading.objects.create(
        photo=photo, scale=drawn.scale, shows=shows, shape=drawn.shape,
        points=[list(point) for point in drawn.points], narrowest_groove=drawn.groove,
        value=reading.value, uncertainty=reading.uncertainty,
        budget=[[part.name, part.share] for part in reading.budget], blind=blind, author=author)
    AuditEntry.objects.create(actor=author, action="length_read", unit=photo.unit, detail={
        "photo": photo.key, "reading": row.pk, "shows": shows, "blind": blind})
    return row
