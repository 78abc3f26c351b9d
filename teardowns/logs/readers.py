"""Which reader reads which kind of log, and in which edition."""
from __future__ import annotations

from collections.abc import Callable, Collection
from functools import cache
from hashlib import sha256
from pathlib import Path

from teardowns.logs.channels import Channels
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Result
from teardowns.logs.load_tests import read_load_test
from teardowns.logs.thermal.read_thermal import read_thermal
from teardowns.logs.waveforms.read_waveform import read_waveform

Reader = Callable[[Channels, Conditions, Collection[str] | None, tuple[float, float] | None],
                  list[Result]]
READERS: dict[str, Reader] = {
    "load_sweep": read_load_test, "endurance": read_load_test, "waveform": read_waveform,
    "thermal": read_thermal,
}
ROOMS = (Path(__file__).parent, Path(__file__).parents[1] / "engine" / "physics")


def read_results(kind: str, channels: Channels, conditions: Conditions,
                 results: Collection[str] | None = None,
                 span: tuple[float, float] | None = None) -> list[Result]:
    """All results of a log, or those of the codes, read within the span. [s]"""
    return READERS[kind](channels, conditions, results, span)


@cache
def edition() -> str:
    """A name for the readers as they stand: what they read is read again when they change."""
    sources = [path.read_bytes() for room in ROOMS for path in sorted(room.rglob("*.py"))]
    return sha256(b"".join(sources)).hexdigest()
