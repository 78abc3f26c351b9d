"""What a log shows: read out of its channels, kept with what it depends on, span by span."""
from __future__ import annotations

import json
from collections.abc import Sequence
from functools import partial
from hashlib import sha256
from math import isfinite
from typing import Any

from django.db import transaction

from teardowns.access import recording_to_change
from teardowns.engine.quantities import QUANTITIES
from teardowns.logs.channels import Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Extracted, Result, Told, Unread
from teardowns.logs.readers import READERS, edition, read_results
from teardowns.models import Recording

from .locked_recording import StaleRecording, locked_recording, log_recording, save_recording
from .merge_recordings import channels_beside, input_log_of

Stored = dict[str, Any]


class SpanRefused(ValueError):
    """The message says what is wrong with the span and what would mend it."""


def results_of(recording: Recording) -> list[Stored]:
    """As logs/extracted.py writes them, each with its name; read again when what they depend on
    has changed.

    Raises NotRead or FileNotFoundError.
    """
    basis = _basis(recording)
    if recording.results_from != basis:
        with channels_beside(recording) as channels:
            _keep(recording, _all_results(recording, channels), basis)
    return recording.results


def _basis(recording):
    """A digest of all that decides the results, the log of the mains side included."""
    beside = input_log_of(recording)
    told = [edition(), recording.kind, recording.channels, recording.layout, recording.conditions,
            recording.spans, beside and [beside.channels, beside.layout]]
    return sha256(json.dumps(told, sort_keys=True).encode()).hexdigest()


def _keep(recording, results, basis):
    recording.results, recording.results_from = results, basis
    recording.extracted = {
        result["code"]: result["value"] for result in reversed(results)
        if result["kind"] == "number" and result["code"] in QUANTITIES}
    _row_as_read(recording).update(results=results, results_from=basis,
                                   extracted=recording.extracted)


def _row_as_read(recording):
    """The row, unless it was laid out or moved anew while its results were read."""
    return Recording.objects.filter(pk=recording.pk, channels=recording.channels,
                                    version=recording.version)


def _all_results(recording, channels) -> list[Stored]:
    if recording.kind not in READERS:
        return []
    conditions = Conditions.from_json(recording.conditions)
    results = _named(_stored(read_results(recording.kind, channels, conditions)))
    return [_moved(recording, channels, result) for result in results]


def _named(results: Sequence[Stored]) -> list[Stored]:
    """Each with a name of its own: its code, or "code#2" where a code has several results."""
    seen: dict[str, int] = {}
    named = []
    for result in results:
        code = result["code"]
        seen[code] = seen.get(code, 0) + 1
        named.append(result | {"name": code if seen[code] == 1 else f"{code}#{seen[code]}"})
    return named


def _moved(recording, channels: Channels, result: Stored) -> Stored:
    """The result, read again if its span was moved."""
    span = recording.spans.get(result["name"])
    if span is None:
        return result
    conditions = Conditions.from_json(recording.conditions)
    found = [one for one in _stored(read_results(recording.kind, channels, conditions,
                                                 {result["code"]}, tuple(span)))
             if one["code"] == result["code"]]
    nothing = Unread(result["code"], result["label"], "The span does not show it: choose another "
                     "one, or go back to the whole log.").to_json()
    return min(found, key=partial(_unlikeness, result), default=nothing) | {
        "name": result["name"]}


def _unlikeness(result, other):
    """Of several results of a code, read from one span, the same port voltage and column count."""
    apart = abs(result.get("conditions", {}).get("output_voltage", 0.0)
                - other.get("conditions", {}).get("output_voltage", 0.0))
    return other["kind"] == "unread", result.get("column") != other.get("column"), apart


def _stored(results: Sequence[Result]) -> list[Stored]:
    """As JSON: numbers that are none become what they are, unread."""
    return json.loads(json.dumps([_sound(one).to_json() for one in results], allow_nan=False,
                                 default=lambda number: number.item()))      # numpy's own


def _sound(result: Result) -> Result:
    if isinstance(result, Extracted):
        numbers = (result.value, result.uncertainty, result.start, result.end,
                   *result.conditions.values(), *(share for _, share in result.budget))
    elif isinstance(result, Told):
        numbers = (result.start, result.end)
    else:
        return result
    if all(map(isfinite, numbers)):
        return result
    return Unread(result.code, result.label, "The numbers in this span do not give one: look at "
                  "the chart for blanks or overflows, and choose another span.")


def move_span(*, author, recording: Recording, name: str, span: tuple[float, float] | None,
              version: int) -> list[Stored]:
    """All results, the one of that name read from that span; None = where the reader itself looks.

    Raises Http404, StaleRecording, SpanRefused, NotRead or FileNotFoundError.
    """
    recording = recording_to_change(author, recording.unit_id, recording.key)
    results = results_of(recording)
    if all(one["name"] != name for one in results):
        raise SpanRefused("This log has no such result. Load the page again.")
    kept = {other: place for other, place in recording.spans.items() if other != name}
    spans = kept if span is None else kept | {name: list(span)}
    if spans == recording.spans:
        return results
    if recording.version != version:
        raise StaleRecording
    seen = recording.version
    recording.spans = spans
    with channels_beside(recording) as channels:     # may take its time: nothing is locked yet
        _check_span(channels, span)
        results = _all_results(recording, channels)
    _move(author, recording, seen, results, name)
    return results


@transaction.atomic
def _move(author, moved, seen, results, name):
    recording = locked_recording(author, moved)
    if recording.version != seen:
        raise StaleRecording
    recording.spans = moved.spans
    save_recording(author, recording, "Span moved")
    _keep(recording, results, _basis(recording))
    log_recording(author, recording, "span_moved", name=name, span=recording.spans.get(name))


def _check_span(channels, span):
    if span is None:
        return
    start, end = span
    if not start < end:
        raise SpanRefused("The span ends before it begins: write a later time as its end.")
    first, last = float(channels.time[0]), float(channels.time[-1])
    if end < first or start > last:
        raise SpanRefused(f"The log runs from {first:g} to {last:g} s: choose a span within it.")
