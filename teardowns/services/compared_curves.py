"""Load curves of the units of a comparison, read from their logs' channels."""
from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from teardowns.logs.load_curve import load_curve
from teardowns.models import Recording, RecordingKind

from .compared_units import ComparedUnit
from .read_recording import NotRead, channels_of

MOST = 12               # curves that one drawing can hold

Points = Sequence[tuple[float, float]]


def compared_curves(units: Sequence[ComparedUnit]) -> list[list[tuple[Recording, Points]]]:
    """For each unit its logs with their (A, V), load sweeps first; all together at most `MOST`."""
    share = max(MOST // max(len(units), 1), 1)
    return [_first(one.logs, share) for one in units]


def _first(logs: Iterable[Any], share: int) -> list[tuple[Recording, Points]]:
    """Only as many logs are read as are drawn."""
    found: list[tuple[Recording, Points]] = []
    for log in sorted(logs, key=lambda log: (log.kind != RecordingKind.LOAD_SWEEP, log.pk)):
        if len(found) == share:
            break
        if points := _curve(log):
            found.append((log, points))
    return found


def _curve(recording: Recording) -> Points:
    try:
        with channels_of(recording) as channels:
            return load_curve(channels)
    except (NotRead, FileNotFoundError):
        return ()
