"""Read a length off a photo: the evidence gets the value, the photo keeps the points behind it."""
from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from math import nan
from typing import Any

from django.db import transaction

from core.audit.record import record
from teardowns import access
from teardowns.engine.requirements.surface_path import narrowest_width
from teardowns.imaging.measuring import CLICK_U, Reading, measure
from teardowns.imaging.points import Points
from teardowns.imaging.slot_reading import Slot, SlotReading, measure_round_slot
from teardowns.imaging.surface_path import counted_length
from teardowns.models import (
    InsulationObservation,
    Photo,
    PhotoClicks,
    PhotoReading,
    PhotoScale,
    Shape,
    UncertaintyKind,
)
from teardowns.models.evidence import Evidence

from .annotate_photo import put_mark
from .save_section import RowChange, SavedSection, save_section
from .scale_photo import scale_of

SECTION = "photos"


@dataclass(frozen=True)
class Grooves:
    """What decides which grooves and slots are too narrow to count."""

    pollution_degree: int = 2        # indoors and dry
    clearance: float | None = None   # m: the one that is required there

    @property
    def narrowest(self) -> float:
        """X. [m]"""
        clearance = nan if self.clearance is None else self.clearance
        return float(narrowest_width(float(self.pollution_degree), clearance))


@dataclass(frozen=True)
class Drawn:
    """What was drawn to be measured."""

    shape: str                       # "line" or "path"
    points: Points                   # px
    scale: PhotoScale
    clicks: PhotoClicks | None = None        # repeated ones of the same person; None: as assumed
    off_plane: bool = False          # it lies above or below the plane of the scale
    grooves: Grooves | None = None   # the surface is followed, or a slot is walked round
    slot: Slot | None = None         # it lies between the two ends of a line

    @property
    def click_u(self) -> float:
        """Of one click, k = 1. [px]"""
        return self.clicks.uncertainty if self.clicks else CLICK_U


def read_length(photo: Photo, drawn: Drawn) -> tuple[Reading, SlotReading | None]:
    """Raises ValueError, in the user's words."""
    how: dict[str, Any] = {"size": (photo.width or 0, photo.height or 0),
                           "off_plane": drawn.off_plane}
    scale = scale_of(drawn.scale)
    if drawn.slot and drawn.grooves:
        found = measure_round_slot(scale, drawn.points, drawn.slot, drawn.grooves.narrowest,
                                   drawn.click_u, **how)
        return found.reading, found
    along = None if drawn.grooves is None else \
        partial(counted_length, narrowest=drawn.grooves.narrowest)
    return measure(scale, drawn.points, drawn.click_u, along=along, **how), None


@transaction.atomic
def measure_photo(
    *, author, photo: Photo, drawn: Drawn, model: type[Evidence], key: str, version: int,
    values: dict[str, Any], label: str,
) -> tuple[PhotoReading, SavedSection]:
    """The row of evidence with the length that was drawn, a mark that shows where, the reading.

    Raises Http404, ValueError, StaleRows, SaveRefused.
    """
    reading, round_slot = read_length(photo, drawn)
    values = values | ({} if round_slot is None else _crossed(photo, key, round_slot))
    saved = save_section(author, photo.unit_id, SECTION, [RowChange(model, key, version, values | {
        "value": reading.value, "uncertainty": reading.uncertainty,
        "uncertainty_kind": UncertaintyKind.STANDARD, "photo": photo})])
    shows = f"{model._meta.model_name}/{key}"
    way = ("path", round_slot.way) if round_slot else (drawn.shape, drawn.points)
    put_mark(author=author, photo=photo, shape=way[0], points=way[1], label=label, shows=shows)
    return _kept(author, photo, drawn, reading, round_slot, shows, blind=False), saved


@transaction.atomic
def measure_again(*, reviewer, photo: Photo, drawn: Drawn, shows: str) -> PhotoReading:
    """A second reading by somebody who did not see the first; the evidence stays as it is.

    Raises Http404 or ValueError.
    """
    photo = access.photo_to_see(reviewer, photo.unit_id, photo.key)
    return _kept(reviewer, photo, drawn, *read_length(photo, drawn), shows, blind=True)


def _crossed(photo, key, round_slot):
    """What the row says of the slot; whether there is a loose particle stays as it was said."""
    stored = InsulationObservation.objects.filter(unit=photo.unit_id, key=key).first()
    others = {} if stored is None else {
        name: value for name, value in stored.slot.items() if name.startswith("particle")}
    return {"shape": Shape.PLAIN if round_slot.recorded is None else Shape.SLOT,
            "slot": others | (round_slot.recorded or {})}


def _kept(author, photo, drawn, reading, round_slot, shows, blind):
    grooves = drawn.grooves
    row = PhotoReading.objects.create(
        photo=photo, scale=drawn.scale, shows=shows, shape=drawn.shape,
        points=_listed(drawn.points), narrowest_groove=grooves and grooves.narrowest,
        pollution_degree=grooves and grooves.pollution_degree,
        clearance=grooves and grooves.clearance, slot=_slot_kept(drawn.slot, round_slot),
        click_uncertainty=drawn.click_u, clicks=drawn.clicks,
        value=reading.value, uncertainty=reading.uncertainty,
        budget=[[part.name, part.share] for part in reading.budget], blind=blind, author=author)
    record(author, "length_read", photo.unit_id, photo=photo.key, reading=row.pk, shows=shows,
           blind=blind)
    return row


def _slot_kept(slot, found):
    """The slot as marked and what came of it; px and m, all u with k = 1."""
    if slot is None or found is None:
        return {}
    return {"corners": _listed(slot.corners), "open_corners": list(slot.open_corners),
            "way": _listed(found.way), "straight": found.straight, "width": found.width,
            "width_u": found.width_u, "counts": found.counts, "is_sure": found.is_sure}


def _listed(points):
    return [list(point) for point in points]
