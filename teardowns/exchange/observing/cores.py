"""The transformer's core: what its printed name says by the core library."""
from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isnan

from teardowns.engine.physics.cores import COMPUTED_U, FAMILIES, find_core
from teardowns.exchange.observing.observation import Observation, Row, is_recorded, refs_of
from teardowns.reading.markings.core import CoreName, read_core

SAME_SHAPE = {"EE": "E", "EF": "E", "EEL": "E", "EER": "ER"}     # names in use for one family


def of_cores(components: Sequence[Row]) -> Iterator[Observation]:
    """components : those that count. Cores that are named differently decide nothing."""
    rows = [row for row in components
            if row["role"] == "core" and is_recorded(row) and row["marking"]]
    names = {read_core(row["marking"]) for row in rows}
    name = names.pop() if len(names) == 1 else None
    if name is not None:
        yield from _of_name(name, refs_of("component", rows[:1]))


def _of_name(name: CoreName, refs):
    family = SAME_SHAPE.get(name.family, name.family)
    if family in FAMILIES:
        yield Observation("core_family", float(FAMILIES.index(family)), 0.0, refs)
    core = find_core(str(name))
    if core is not None:
        yield Observation("core_effective_area", core.area, core.area_u, refs)
        if not isnan(core.window_area):
            yield Observation("core_window_area", core.window_area,
                              COMPUTED_U * core.window_area, refs)
