"""Captures of one node at several loads beside each other: how the converter follows its load."""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Told, result_from
from teardowns.logs.layout import Layout
from teardowns.logs.roles import NOT_USED, ROLES, TIME
from teardowns.logs.waveforms.follow_load import Capture, follow_load
from teardowns.models import Recording


def load_following(read: Iterable[tuple[Recording, Sequence[Mapping[str, Any]]]]
                   ) -> list[dict[str, Any]]:
    """Of each node that was captured: what it is, what follows, in sentences.

    read : captures with their results, as stored; those without a stated load say nothing
    """
    nodes: dict[str, list[Capture]] = {}
    for recording, results in read:
        load = Conditions.from_json(recording.conditions).load
        if load is not None:
            nodes.setdefault(_node(recording), []).append(
                Capture(load, tuple(result_from(result) for result in results)))
    return [{"node": ROLES[node].label, "says": told.says, "working": told.working}
            for node, captures in sorted(nodes.items()) for told in follow_load(captures)
            if isinstance(told, Told)]


def _node(recording):
    columns = Layout.from_json(recording.layout).used()
    return next((column.role for column in columns if column.role != TIME), NOT_USED)
