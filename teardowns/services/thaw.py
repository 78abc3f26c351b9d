"""A unit as one of its versions has it: rows frozen when it was published, thawed for a page."""
from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.core import serializers
from django.core.serializers.json import DjangoJSONEncoder
from django.db.models import Model

from core.accounts.models import User
from teardowns.models import (
    EVIDENCE,
    Annotation,
    Part,
    Photo,
    PhotoClicks,
    PhotoReading,
    PhotoScale,
    PhotoTemperature,
    Publication,
    Recording,
    RecordingReading,
    Unit,
)

OF_UNIT: tuple[Any, ...] = (Photo, Recording, *EVIDENCE)
OF_PHOTO: tuple[Any, ...] = (PhotoClicks, PhotoScale, Annotation, PhotoReading, PhotoTemperature)
OF_RECORDING: tuple[Any, ...] = (RecordingReading,)
# Of the unit these go on living beside every version: where it stands, not what it is.
LIVING = ("status", "published_at", "submitted_at", "quarantined_at", "publication_id")


@dataclass(frozen=True)
class Thawed:
    """What a version says, as rows that must not be saved."""

    unit: Unit
    publication: Publication
    rows: dict[str, list[Any]]          # by model name, evidence and what is drawn on photos

    @property
    def evidence(self) -> dict[str, list[Any]]:
        return {_name(model): self.rows[_name(model)] for model in EVIDENCE}

    def photo(self, key: str) -> Photo | None:
        return next((row for row in self.rows["photo"] if row.key == key), None)

    def recording(self, key: str) -> Recording | None:
        return next((row for row in self.rows["recording"] if row.key == key), None)

    def of_photo(self, model: type[Model], photo: Photo) -> list[Any]:
        return [row for row in self.rows[_name(model)] if row.photo_id == photo.pk]

    def of_recording(self, recording: Recording) -> list[RecordingReading]:
        return [row for row in self.rows["recordingreading"] if row.recording_id == recording.pk]


def _name(model: Any) -> str:
    return model._meta.model_name


def freeze(unit: Unit) -> dict[str, Any]:
    """Everything a unit's pages show, as JSON: a query a kind of row; no file that was set aside.
    """
    found = {_name(model): model.objects.filter(unit=unit).order_by("pk") for model in OF_UNIT}
    for files in (Photo, Recording):
        found[_name(files)] = found[_name(files)].filter(set_aside=False)
    found |= {_name(model): model.objects.filter(photo__in=found["photo"]).order_by("pk")
              for model in OF_PHOTO}
    found |= {_name(model): model.objects.filter(recording__in=found["recording"]).order_by("pk")
              for model in OF_RECORDING}
    return {"unit": plain_rows(Unit.objects.filter(pk=unit.pk))[0],
            **{name: plain_rows(rows) for name, rows in found.items()}}


def plain_rows(rows: Iterable[Model]) -> list[dict[str, Any]]:
    """Every column of rows, as JSON."""
    return json.loads(json.dumps(serializers.serialize("python", rows), cls=_Exact))


class _Exact(DjangoJSONEncoder):
    """Django's own cuts times to milliseconds; these have to come back as they were."""

    def default(self, o):
        return o.isoformat() if isinstance(o, datetime) else super().default(o)


def thaw(publication: Publication) -> Thawed:
    """The unit and rows of a version; asks for its people and its parts, once each.

    publication : with its unit, as it stands now
    """
    frozen = publication.frozen
    live = publication.unit
    unit, = model_rows([frozen["unit"]])
    for name in LIVING:
        setattr(unit, name, getattr(live, name))
    rows = {_name(model): model_rows(frozen.get(_name(model), ()))
            for model in (*OF_UNIT, *OF_PHOTO, *OF_RECORDING)}
    everything = [row for found in rows.values() for row in found]
    _join([unit, *everything], unit, rows)
    return Thawed(unit, publication, rows)


def thawed_recordings(publications: Iterable[Publication]) -> dict[int, list[Recording]]:
    """By unit, the logs of its version with their ports; asks for nothing."""
    found = {}
    for publication in publications:
        ports = {row.pk: row for row in model_rows(publication.frozen.get("port", ()))}
        found[publication.unit_id] = logs = model_rows(publication.frozen.get("recording", ()))
        for log in logs:
            log.port = ports.get(log.port_id)
    return found


def model_rows(plain: Iterable[Mapping[str, Any]]) -> list[Any]:
    """The rows of what `plain_rows` made; they are in no database until somebody saves them."""
    return [each.object for each in
            serializers.deserialize("python", list(plain), ignorenonexistent=True)]


def _join(rows: list[Any], unit: Unit, by_name: dict[str, list[Any]]) -> None:
    """Put into each row the rows that it names, so that no page asks for them one by one."""
    known: dict[Any, dict[int, Any]] = {
        model: {row.pk: row for row in by_name[_name(model)]}
        for model in (*OF_UNIT, *OF_PHOTO, *OF_RECORDING)}
    known[Unit] = {unit.pk: unit}
    for model in (User, Part):
        known[model] = model.objects.in_bulk(_named(rows, model))
    for row in rows:
        for field in _keys(row):
            target = known.get(field.related_model)
            pk = getattr(row, field.attname)
            if target is not None and pk is not None:
                # A row that names one of another version or one that is gone names nothing here.
                setattr(row, field.name, target.get(pk))


def _named(rows, model):
    return {getattr(row, field.attname) for row in rows for field in _keys(row)
            if field.related_model is model and getattr(row, field.attname) is not None}


def _keys(row):
    return [field for field in row._meta.fields if field.many_to_one]
