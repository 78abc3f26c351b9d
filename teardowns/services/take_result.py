"""Take a number read out of a log as evidence: the row gets the value, the log keeps the span."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import isclose
from typing import Any

from django.db import transaction

from core.audit.record import record
from teardowns.access import recording_to_change
from teardowns.engine.quantities import QUANTITIES
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import taken_for_granted
from teardowns.models import (
    How,
    Measurement,
    Recording,
    RecordingReading,
    State,
    UncertaintyKind,
)

from .extract_results import Stored, results_of
from .locked_recording import StaleRecording
from .save_section import RowChange, SavedSection, save_section

SECTION = "recordings"
LONGEST_KEY = 64
SHOWN = "measurement/"
# Of the bench as it was set, where the result itself says nothing.
AS_SET = {"mains_voltage": "mains_voltage", "mains_frequency": "mains_frequency",
          "ambient": "ambient", "output_voltage": "set_voltage"}


class ResultRefused(ValueError):
    """The message says why the result is no evidence, and what would mend it."""


@dataclass(frozen=True)
class Target:
    """A row of evidence that a result can go into."""

    key: str
    version: int                 # 0: a new row
    row: Measurement | None


@transaction.atomic
def take_result(
    *, author, recording: Recording, name: str, span: tuple[float, float], key: str, version: int,
    values: Mapping[str, Any] | None = None,
) -> tuple[RecordingReading, SavedSection]:
    """The row of evidence with the result that was read from that span, and the reading.

    `version` is that of the row, 0 for a new one; `values` go over those of the log: a note, the
    key of a port.
    Raises Http404, StaleRecording, ResultRefused, StaleRows or SaveRefused.
    """
    recording = recording_to_change(author, recording.unit_id, recording.key)
    result = _shown_result(recording, name, span)
    _check(result)
    row = _checked_row(recording, result["code"], key)
    saved = save_section(author, recording.unit_id, SECTION, [RowChange(
        Measurement, key, version, _values(recording, result) | _noted(row, result)
        | dict(values or {}))])
    return _kept(author, recording, result, f"{SHOWN}{key}"), saved


def _shown_result(recording, name, span) -> Stored:
    """The one that the page showed; it may have been read again from elsewhere meanwhile."""
    for result in results_of(recording):
        if result["kind"] == "number" and result["name"] == name and all(
                isclose(result[end], shown, rel_tol=1e-9, abs_tol=1e-12)
                for end, shown in zip(("start", "end"), span, strict=True)):
            return result
    raise StaleRecording


def _check(result):
    quantity = QUANTITIES.get(result["code"])
    if quantity is None:
        raise ResultRefused(f"“{result['label']}” is shown with the log, and no rule reads it: it "
                            "does not become evidence of its own.")
    if not quantity.low <= result["value"] <= quantity.high:
        raise ResultRefused(
            f"{quantity.label} lies between {quantity.low:g} and {quantity.high:g} "
            f"{quantity.unit}, and {result['value']:g} {quantity.unit} was read: check the units "
            "of the columns under “How the file is read”.")


def _checked_row(recording, code, key):
    """The row that the result goes into, or None; one row holds one quantity."""
    row = Measurement.objects.filter(unit=recording.unit_id, key=key).first()
    if row is not None and row.quantity != code:
        raise ResultRefused(f"The row “{key}” holds another quantity: choose another row.")
    return row


def _noted(row, result):
    """What the reading takes for granted goes along, behind what the row says already."""
    note = "" if row is None else row.note
    granted = [told for told in taken_for_granted(result["working"]) if told not in note]
    return {"note": " ".join(filter(None, [note, *granted]))} if granted else {}


def _values(recording, result):
    conditions = Conditions.from_json(recording.conditions)
    as_set = {name: getattr(conditions, stated) for name, stated in AS_SET.items()}
    return {"state": State.RECORDED, "how": How.MEASURED, "quantity": result["code"],
            "value": result["value"], "uncertainty": result["uncertainty"],
            "uncertainty_kind": UncertaintyKind.STANDARD, "recording": recording,
            "port": recording.port and recording.port.key, "instrument": recording.instrument,
            "duration": None, "output_current": None,
            **({"all_ports": False} if recording.port else {}), **as_set, **result["conditions"]}


def _kept(author, recording, result, shows):
    row = RecordingReading.objects.create(
        recording=recording, shows=shows, author=author,
        **{field: result[field] for field in ("code", "name", "start", "end", "value",
                                              "uncertainty", "budget", "working")})
    record(author, "result_taken", recording.unit_id, recording=recording.key, reading=row.pk,
           name=row.name, shows=shows)
    return row


def targets_of(recording: Recording, names: Iterable[str]) -> dict[str, list[Target]]:
    """By name, the rows that a result can go into: the proposed one first, then the others.

    Proposed is the row that was taken from this result before, else a new one. Asks twice for all.
    """
    rows = list(Measurement.objects.filter(unit=recording.unit_id).select_related("port"))
    newest = _newest(recording.readings.all())
    return {name: _targets(recording, name, rows, newest) for name in names}


def _targets(recording, name, rows, newest):
    code, _, number = name.partition("#")
    same = [Target(row.key, row.version, row) for row in rows if row.quantity == code]
    own = [one for one in same if name in newest and newest[name].shows == f"{SHOWN}{one.key}"]
    if own:
        return own + [one for one in same if one not in own]
    used = {row.key for row in rows}
    return [Target(_free_key(recording, code, number, used), 0, None), *same]


def _free_key(recording, code, number, used):
    """ "ripple-voltage-load-sweep-1": where it came from, and readable in an address."""
    parts = (code.replace("_", "-"), recording.key, *filter(None, [number]))
    stem = "-".join(parts)[:LONGEST_KEY - 4]
    count, key = 1, stem
    while key in used:
        count += 1
        key = f"{stem}-{count}"
    return key


def _newest(readings) -> dict[str, RecordingReading]:
    return {reading.name: reading for reading in readings}


def taken_from(recording: Recording) -> dict[str, dict[str, Any]]:
    """By name, the row that has its value from that result: key, version, and the reading behind.

    `is_current`: the row still says what was read. Asks twice.
    """
    return taken_among(recording.readings.all(), Measurement.objects.filter(
        unit=recording.unit_id, recording=recording))


def taken_among(readings: Iterable[RecordingReading], measurements: Iterable[Measurement]
                ) -> dict[str, dict[str, Any]]:
    """The same of readings and rows that are there already."""
    rows = {row.key: row for row in measurements}
    found = {}
    for name, reading in _newest(readings).items():
        row = rows.get(reading.shows.removeprefix(SHOWN))
        if row is not None and row.quantity == reading.code and row.value is not None:
            found[name] = {"key": row.key, "version": row.version, "value": row.value,
                           "reading": reading,
                           "is_current": isclose(row.value, reading.value, rel_tol=1e-9)}
    return found
