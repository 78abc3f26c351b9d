"""Logs of the demo units, made from what their documents record and read as any log is."""
from __future__ import annotations

import json
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import hypot
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import transaction

from teardowns.drawing.logs.logs_of import DrawnLog, logs_of
from teardowns.exchange.document import read_document
from teardowns.logs.detect import detect_layout
from teardowns.logs.layout import Layout
from teardowns.models import Measurement, Port, Recording, RecordingReading, Unit

from .assess_units import assess_units
from .extract_results import results_of
from .lay_out_recording import headings_of
from .load_demo import FIXTURES, keep_demo_version
from .photo_files import digest, keep_original
from .read_recording import read_on
from .recording_files import HEAD

AGREE = 3.0               # combined standard uncertainties between a row and what its log shows


def draw_demo_logs() -> Iterator[tuple[int, int]]:
    """Make and read the logs of demo units that have none; (units done, units to do) after each."""
    waiting = _waiting()
    for done, (unit, document) in enumerate(waiting, start=1):
        keep_logs(unit, logs_of(read_document(document)))
        keep_demo_version(unit, "Logs of the tests were added.")
        yield done, len(waiting)


def _waiting() -> list[tuple[Unit, dict[str, Any]]]:
    documents = [json.loads(path.read_text("utf-8")) for path in sorted(FIXTURES.glob("*.json"))]
    units = {str(unit.uid): unit for unit in Unit.objects.filter(
        uid__in=[document["unit"]["uid"] for document in documents], recordings=None)}
    return [(units[document["unit"]["uid"]], document) for document in documents
            if document["unit"]["uid"] in units]


def keep_logs(unit: Unit, logs: Sequence[DrawnLog]) -> None:
    """Each log read to its end, and named by the rows of evidence that agree with it."""
    linked = [_keep(unit, log) for log in logs]
    if any(linked):
        assess_units([unit])


def _keep(unit, log) -> bool:
    """Whether rows of evidence name it now."""
    recording = _recorded(unit, log)
    while not (progress := read_on(recording)) or not progress.finished:
        pass
    recording.refresh_from_db()
    return _linked(recording, results_of(recording), log)


def _recorded(unit, log):
    settings.INCOMING.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=settings.INCOMING, prefix="demo-") as file:
        file.write(log.data)
        file.flush()
        path = Path(file.name)
        sha256 = digest(path)
        keep_original(path, sha256)
    layout = _layout(log)
    return Recording.objects.create(
        unit=unit, key=log.key, kind=log.kind, sha256=sha256, original_name=log.name,
        byte_size=len(log.data), received=True, generated=True, caption=log.caption,
        port=Port.objects.filter(unit=unit, key=log.port).first(), author=unit.contributor,
        layout=layout.to_json(), conditions=log.conditions.to_json(), columns=headings_of(layout))


def _layout(log) -> Layout:
    """As a contributor would confirm it: what each column is, they know."""
    layout = detect_layout(log.data[:HEAD], name=log.name).layout
    columns = tuple(replace(column, role=role, place=place)
                    for column, (role, place) in zip(layout.columns, log.roles, strict=True))
    return replace(layout, columns=columns)


@transaction.atomic
def _linked(recording, results, log):
    found = {result["code"]: result for result in results if result["kind"] == "number"}
    rows = Measurement.objects.filter(unit=recording.unit, key__in=log.shows)
    agreeing = [(row, found[row.quantity]) for row in rows if row.quantity in found
                and _agree(row, found[row.quantity])]
    for row, result in agreeing:
        _name_log(row, recording)
        RecordingReading.objects.create(
            recording=recording, shows=row.ref, author=recording.author,
            **{field: result[field] for field in ("code", "name", "start", "end", "value",
                                                  "uncertainty", "budget", "working")})
    return bool(agreeing)


def _name_log(row, recording):
    row.recording = recording
    row._history_user, row._change_reason = recording.author, "The log behind it"
    row.save()


def _agree(row, result):
    return abs(row.value - result["value"]) <= AGREE * hypot(
        row.uncertainty or 0.0, result["uncertainty"])
