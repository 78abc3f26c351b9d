"""How the text of a log is to be read: what a contributor confirms before anything is stored."""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from teardowns.logs.roles import NOT_USED


@dataclass(frozen=True, slots=True)
class LogColumn:
    index: int                # place in the line, 0 is the first
    label: str                # heading as the file has it, "" without one
    role: str = NOT_USED      # code of roles.ROLES
    unit: str = ""            # as the file writes it; "" = the unit of its role
    place: str = ""           # of a temperature: the quantity that it shows, or "" for none


@dataclass(frozen=True, slots=True)
class Layout:
    encoding: str             # a codec's name: "utf-8", "utf-16-le", "cp1252"; marks are skipped
    separator: str            # "," ";" "\t" "|" or " " for any run of blanks
    decimal: str              # "." or ","
    first_line: int           # of the first row of numbers; 1 is the first line of the file
    columns: tuple[LogColumn, ...]
    thousands: str = ""       # "" "," "." " " or "'"
    time_style: str = "numbers"       # "numbers", "clock" (of day, or date and time), "interval"
    date_order: str = ""      # "ymd", "dmy", "mdy" where dates are written with figures
    interval: float | None = None     # s between rows, where no column gives the time

    def used(self) -> tuple[LogColumn, ...]:
        return tuple(column for column in self.columns if column.role != NOT_USED)

    def to_json(self) -> dict[str, Any]:
        return asdict(self)

    @classmethod
    def from_json(cls, stored: Mapping[str, Any]) -> Layout:
        columns = tuple(LogColumn(**column) for column in stored["columns"])
        return cls(**{**stored, "columns": columns})
