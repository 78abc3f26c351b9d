"""A photo or a log as a page shows it: as the standing version has it, or as it is worked on."""
from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from teardowns import access
from teardowns.models import (
    Annotation,
    Measurement,
    Photo,
    PhotoReading,
    PhotoScale,
    PhotoTemperature,
    Publication,
    Recording,
    RecordingReading,
    Unit,
)

from .shown_unit import WORKING
from .thaw import Thawed, thaw


@dataclass(frozen=True)
class ShownPhoto:
    photo: Photo
    thawed: Thawed | None               # None: the working copy
    marks: Sequence[Annotation]
    scales: Sequence[PhotoScale]
    readings: Sequence[PhotoReading]
    temperatures: Sequence[PhotoTemperature]


@dataclass(frozen=True)
class ShownRecording:
    recording: Recording
    thawed: Thawed | None
    readings: Sequence[RecordingReading]
    measurements: Sequence[Measurement]        # rows that name the log as what shows them


def shown_photo(user: Any, unit_pk: int, key: str, version: str = "") -> ShownPhoto:
    """Raises Http404. version : "working" for what is being worked on, else what stands"""
    photo = access.photo_to_see(user, unit_pk, key)
    thawed = standing(photo.unit, version)
    then = thawed.photo(key) if thawed else None
    if thawed is None or then is None:
        return ShownPhoto(photo, None, list(_signed(photo.annotations)),
                          list(_signed(photo.scales)),
                          list(_signed(photo.readings).select_related("clicks")),
                          list(_signed(photo.temperatures)))
    then.unit = photo.unit
    marks, scales, readings, heat = (thawed.of_photo(model, then) for model in (
        Annotation, PhotoScale, PhotoReading, PhotoTemperature))
    return ShownPhoto(then, thawed, marks, scales, [*readings, *_read_since(photo, readings)],
                      heat)


def shown_recording(user: Any, unit_pk: int, key: str, version: str = "") -> ShownRecording:
    """Raises Http404. version : as of `shown_photo`"""
    recording = access.recording_to_see(user, unit_pk, key)
    thawed = standing(recording.unit, version)
    then = thawed.recording(key) if thawed else None
    if thawed is None or then is None:
        live = Measurement.objects.filter(unit=unit_pk, recording=recording)
        return ShownRecording(recording, None, list(recording.readings.all()), list(live))
    then.unit = recording.unit
    measured = [row for row in thawed.rows["measurement"] if row.recording_id == then.pk]
    return ShownRecording(then, thawed, thawed.of_recording(then), measured)


def _read_since(photo, readings):
    """Second readings that reviewers took since: they change no evidence, and hide from nobody."""
    known = [row.pk for row in readings]
    return _signed(photo.readings).filter(blind=True).exclude(pk__in=known).select_related("clicks")


def standing(unit: Unit, version: str = "") -> Thawed | None:
    """The version that stands, thawed; None for a working copy."""
    if version == WORKING or not unit.publication_id:
        return None
    publication = Publication.objects.get(pk=unit.publication_id)
    publication.unit = unit
    return thaw(publication)


def _signed(rows):
    return rows.select_related("author").order_by("pk")
