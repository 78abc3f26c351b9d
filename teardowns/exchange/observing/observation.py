"""One value of one quantity, and what every kind of row has in common when it yields some."""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import nan, sqrt
from typing import Any

from teardowns.engine.evidence import assumed_uncertainty

Row = Mapping[str, Any]
ALL = "*"       # no key of a port has such a sign
# What a stated ± means as a standard uncertainty; JCGM 100:2008, 4.3.4 (interval, k = 2) and 4.3.7.
DIVISOR = {"standard": 1.0, "interval": 2.0, "tolerance": sqrt(3.0)}


@dataclass(frozen=True, slots=True)
class Observation:
    """One value of one quantity, and the rows of evidence that it rests on."""

    code: str
    value: float                        # SI
    u: float                            # standard uncertainty, same unit
    refs: tuple[str, ...]
    mains_voltage: float = nan          # V rms, NaN = not stated
    output_voltage: float = nan         # V, NaN = not stated
    port: str = ""                      # key of the port it is about, "" = not stated, or ALL
    photo: str = ""                     # key of the photo whose scale gave a length, "" = none


def is_recorded(row: Row) -> bool:
    return row["state"] == "recorded"


def may_be_there(rows: Iterable[Row]) -> list[Row]:
    """All rows but those of what was looked for and not found."""
    return [row for row in rows if row["state"] != "not_found"]


def refs_of(noun: str, rows: Iterable[Row]) -> tuple[str, ...]:
    return tuple(f"{noun}/{row['key']}" for row in rows)


def standard_uncertainty(code: str, row: Row) -> float:
    """Of a row with a value; as stated, else as the rulebook assumes."""
    if "uncertainty" in row and row["uncertainty_kind"]:
        return row["uncertainty"] / DIVISOR[row["uncertainty_kind"]]
    return assumed_uncertainty(code, row["how"], row["value"])


def the_one(values: Sequence[float]) -> float | None:
    """The value that all agree on; None where they differ, or there is none."""
    return values[0] if values and all(value == values[0] for value in values) else None
