"""How a log is read and how the bench was set: proposed, confirmed, remembered."""
from __future__ import annotations

import json
from collections.abc import Mapping
from functools import partial
from typing import Any
from uuid import uuid4

from django.db import transaction

from teardowns.logs.conditions import Conditions
from teardowns.logs.detect import Proposal, detect_layout, signature
from teardowns.logs.layout import Layout
from teardowns.logs.roles import TIME
from teardowns.models import InstrumentLayout, Recording

from .locked_recording import StaleRecording, locked_recording, log_recording, save_recording
from .recording_files import (
    drop_channels,
    forget_work,
    head_of,
    plain_proposal,
    reading_alone,
)
from .save_section import differs

SHOWN = 120                # characters of a heading that a document keeps


def propose_layout(author, recording: Recording, answers: Mapping[str, str] | None = None
                   ) -> Proposal:
    """What the file looks like to us, or as the same instrument's files were read before.

    Raises RefusedLog or FileNotFoundError.
    """
    head = head_of(recording)
    plain = plain_proposal(head, recording.original_name)
    remembered = remembered_layout(author, recording.instrument, signature(plain))
    if not answers and remembered is None:
        return plain
    return detect_layout(head, name=recording.original_name, answers=answers,
                         remembered=remembered)


def remembered_layout(author, instrument: str, signature: str) -> Layout | None:
    row = InstrumentLayout.objects.filter(
        author=author, instrument=_called(instrument), signature=signature).first()
    return None if row is None else Layout.from_json(row.layout)


@transaction.atomic
def lay_out_recording(*, author, recording: Recording, layout: Layout, conditions: Conditions,
                      kind: str, version: int) -> bool:
    """Whether something had to be changed; with another layout reading begins anew.

    Raises Http404 or StaleRecording.
    """
    recording = locked_recording(author, recording)
    told = {"layout": _as_stored(layout), "conditions": _as_stored(conditions), "kind": kind}
    if not differs(recording, told) and not recording.refusal:
        return False
    if recording.version != version:
        raise StaleRecording
    if differs(recording, {"layout": told["layout"]}) or recording.refusal:
        _begin_anew(recording, layout)
    for name, value in told.items():
        setattr(recording, name, value)
    save_recording(author, recording, "Laid out")
    _remember(author, recording)
    log_recording(author, recording, "recording_laid_out", **told)
    return True


@transaction.atomic
def read_anew(*, author, recording: Recording, version: int) -> None:
    """Reading begins once more with the same layout, where its numbers were lost.

    Raises Http404 or StaleRecording.
    """
    recording = locked_recording(author, recording)
    if recording.version != version:
        raise StaleRecording
    _begin_anew(recording, Layout.from_json(recording.layout))
    save_recording(author, recording, "Read once more")
    log_recording(author, recording, "recording_read_anew")


def _as_stored(told: Layout | Conditions) -> dict[str, Any]:
    return json.loads(json.dumps(told.to_json(), allow_nan=False))


def _begin_anew(recording, layout):
    """Spans stay where they were, unless the time itself is read in another way."""
    if recording.layout and _time_in(Layout.from_json(recording.layout)) != _time_in(layout):
        recording.spans = {}
    # Versions go on showing the channels that they were published with; the sweeper knows them.
    channels = "" if recording.published_at else recording.channels
    transaction.on_commit(partial(_forget, recording.reading, channels))
    recording.reading, recording.progress = uuid4(), {}
    recording.refusal, recording.refusal_line, recording.refusal_column = "", None, None
    recording.channels, recording.rows, recording.read_at = "", None, None
    recording.results, recording.results_from, recording.extracted = [], "", {}
    recording.columns = headings_of(layout)


def _time_in(layout):
    columns = [(column.index, column.unit) for column in layout.columns if column.role == TIME]
    return (columns, layout.time_style, layout.interval, layout.date_order, layout.first_line,
            layout.decimal, layout.thousands)


def _forget(reading, channels):
    """The files of the reading that is no more; where somebody still reads, the sweeper comes."""
    if channels:
        drop_channels(channels)
    with reading_alone(reading) as is_alone:
        if is_alone:
            forget_work(reading)


def headings_of(layout: Layout) -> dict[str, str]:
    """Meaning → heading, as a document names what was read."""
    found: dict[str, str] = {}
    for column in layout.used():
        meaning = column.place or column.role
        name = meaning if meaning not in found else f"{meaning}_{column.index + 1}"
        found[name] = column.label[:SHOWN]
    return found


def _remember(author, recording):
    """For the next file that this instrument writes under the same heading."""
    plain = plain_proposal(head_of(recording), recording.original_name)
    InstrumentLayout.objects.update_or_create(
        author=author, instrument=_called(recording.instrument), signature=signature(plain),
        defaults={"layout": recording.layout})


def _called(instrument):
    """One instrument, however its name was typed."""
    return " ".join(instrument.split()).casefold()
