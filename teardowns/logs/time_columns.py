"""Which column gives the time of a log, and how it is written."""
from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from teardowns.logs.cell_kinds import CLOCK, LOOSE, NUMBER
from teardowns.logs.clock_times import (
    ORDERS,
    has_date,
    is_two_part,
    possible_orders,
    seconds_of,
)
from teardowns.logs.headings import TIME
from teardowns.logs.preamble import Interval
from teardowns.logs.questions import Choice, Question, settle, spaced
from teardowns.logs.refusals import RefusedLog
from teardowns.logs.roles import TIME as TIME_ROLE
from teardowns.logs.roles import UNITS
from teardowns.logs.seen_columns import SeenColumn

_UNITS = {"s": "seconds", "ms": "milliseconds", "µs": "microseconds", "min": "minutes",
          "h": "hours", "d": "days"}
_INTERVALS = ("1", "0.1", "0.5", "2", "10", "60")


@dataclass(frozen=True, slots=True)
class Timing:
    column: int | None = None
    style: str = "numbers"
    unit: str = ""
    date_order: str = ""
    interval: float | None = None
    questions: tuple[Question, ...] = ()


def find_time_column(columns: Sequence[SeenColumn], interval: Interval | None,
                     answers: Mapping[str, str]) -> SeenColumn | None:
    """The column that gives the time: answered, named, or the only one of clock times."""
    allowed = [c for c in columns if answers.get(f"role:{c.index}") in {None, "", TIME_ROLE}]
    answered = [c for c in allowed if answers.get(f"role:{c.index}") == TIME_ROLE]
    numbers = [c for c in allowed if c.kind in (NUMBER, LOOSE) and c.heading.quantity == TIME]
    clocks = sorted((c for c in allowed if c.kind == CLOCK), key=_clock_rank)
    plain = [c for c in numbers if c.heading.unit]
    likely = [*answered, *(c for c in plain if not _falls(c)), *clocks, *plain, *numbers]
    if not likely and interval is None:
        likely = [c for c in allowed if is_guessed(c) and _rises(c)][:1]
    if interval and likely and not answered and _is_index(likely[0]):
        return None
    return likely[0] if likely else None


def is_guessed(column: SeenColumn) -> bool:
    """Whether only its ascending numbers make it the time."""
    return column.kind == NUMBER and not column.heading.quantity and not column.heading.mains_meter


def read_timing(column: SeenColumn | None, decimal: str, interval: Interval | None,
                answers: Mapping[str, str]) -> Timing:
    if column is None:
        return _by_interval(interval, answers)
    return _by_clock(column, answers) if column.kind == CLOCK else \
        _by_numbers(column, decimal, interval, answers)


def _clock_rank(column: SeenColumn) -> tuple[bool, int]:
    """A clock that runs first; date and time before a clock, a date alone last."""
    clock, dated = ":" in column.cells[0], has_date(column.cells[0])
    return len(set(column.cells)) == 1, 0 if clock and dated else 1 if clock else 2


def _rises(column: SeenColumn) -> bool:
    return len(column.cells) > 2 and any(bool((np.diff(column.values(mark)) > 0).all())
                                         for mark in ".,")


def _falls(column: SeenColumn) -> bool:
    return all(bool((np.diff(column.values(mark)) < 0).any()) for mark in ".,")


def _is_index(column: SeenColumn) -> bool:
    if column.kind != NUMBER or column.heading.unit:
        return False
    values = column.values(".")
    return all(cell.isdigit() for cell in column.cells) and bool((np.diff(values) == 1).all())


def _by_interval(interval: Interval | None, answers: Mapping[str, str]) -> Timing:
    answered = _positive(answers.get("interval", ""))
    if answered:
        return Timing(style="interval", interval=answered)
    # Without a unit, less than one is seconds: nobody writes 2e-08 of minutes.
    if interval and (interval.unit or interval.value < 1):
        return Timing(style="interval", interval=interval.seconds)
    return Timing(style="interval", questions=(_interval_question(interval),))


def _interval_question(interval: Interval | None) -> Question:
    asks = "No column gives the time. How many seconds lie between two rows?"
    if interval is None:
        return Question("interval", asks, tuple(Choice(s, f"{s} s") for s in _INTERVALS))
    return Question("interval", f"Line {interval.line} gives an interval of {interval.written} "
                    "without a unit. Which is meant?", tuple(
                        Choice(f"{interval.value * UNITS['s'][unit][0]:.12g}", name,
                               f"{interval.written} {unit}")
                        for unit, name in _UNITS.items()))


def _positive(written: str) -> float | None:
    try:
        value = float(written) if re.fullmatch(r"[0-9.]+(e[+-]?[0-9]+)?", written) else 0.0
    except ValueError:
        return None
    return value if 0 < value < float("inf") else None


def _by_clock(column: SeenColumn, answers: Mapping[str, str]) -> Timing:
    dated = [cell for cell in column.cells if has_date(cell)]
    if dated:
        order, asked = _date_order(dated, answers)
        return Timing(column.index, "clock", "", order, questions=asked)
    if not any(map(is_two_part, column.cells)):
        return Timing(column.index, "clock")
    unit, asked = _two_part(column, answers)
    return Timing(column.index, "clock", unit, questions=asked)


def _date_order(cells: Sequence[str], answers: Mapping[str, str],
                ) -> tuple[str, tuple[Question, ...]]:
    possible = possible_orders(cells)
    if "dmy" in possible and re.match(r"[0-9]{1,2}\.[0-9]{1,2}\.[0-9]{4}", cells[0]) \
            and answers.get("date_order") not in possible:
        possible = ("dmy",)               # points: day first wherever they are written
    if not possible:
        raise RefusedLog("clock_time", f"“{cells[0][:40]}” and the dates below it do not ascend "
                         "under any order of day, month and year. Split it where time goes back.")
    return settle("date_order", f"Which order has “{cells[0]}”?",
                  [Choice(order, ORDERS[order], _dated(cells[0], order)) for order in possible],
                  answers)


def _dated(cell: str, order: str) -> str:
    days = np.datetime64("2000-01-01") + np.timedelta64(int(seconds_of(cell, order) // 86400), "D")
    return f"{cell} → {days}"


def _two_part(column: SeenColumn, answers: Mapping[str, str]) -> tuple[str, tuple[Question, ...]]:
    """ "03:04": h has hours and minutes, min has minutes and seconds."""
    label, sample = column.label.lower(), column.cells[-1]
    if "mm:ss" in label or any(re.search("[.,]", cell) for cell in column.cells):
        return "min", ()
    if "hh:mm" in label:
        return "h", ()
    first, second = sample.split(":")
    return settle(f"unit:{column.index}", f"What does “{sample}” count?", [
        Choice("min", "minutes and seconds", f"{sample} → {first} min {second} s"),
        Choice("h", "hours and minutes", f"{sample} → {first} h {second} min")], answers)


def _by_numbers(column: SeenColumn, decimal: str, interval: Interval | None,
                answers: Mapping[str, str]) -> Timing:
    field = f"unit:{column.index}"
    if answers.get(field) in UNITS["s"]:
        return Timing(column.index, unit=answers[field])
    if column.heading.unit in UNITS["s"]:
        return Timing(column.index, unit=column.heading.unit)
    values = column.values(decimal)
    known = _unit_by_interval(values, interval)
    if known:
        return Timing(column.index, unit=known)
    units = column.heading.units or _likely_units(values)
    span = float(np.ptp(values)) if values.size else 0.0
    unit, asked = settle(field, f"In which unit is “{column.label or 'time'}” written?", [
        Choice(unit, _UNITS[unit], f"first to last row seen: {spaced(span)} {unit}")
        for unit in units], answers)
    return Timing(column.index, unit=unit, questions=asked)


def _unit_by_interval(values: np.ndarray, interval: Interval | None) -> str:
    """The unit in which the steps of the column are the interval that the preamble gives."""
    if interval is None or not (interval.unit or interval.value < 1) or values.size < 3:
        return ""
    step = float(np.median(np.diff(values)))
    fitting = [unit for unit in _UNITS
               if abs(step * UNITS["s"][unit][0] - interval.seconds) < 0.01 * interval.seconds]
    return fitting[0] if len(fitting) == 1 else ""


def _likely_units(values: np.ndarray) -> tuple[str, ...]:
    """All units, that first in which the numbers look like a count since 1970 or 1900."""
    first = float(values[0]) if values.size else 0.0
    for unit, least, most in (("s", 1e9, 4e9), ("ms", 1e12, 4e12), ("µs", 1e15, 4e15),
                              ("d", 3e4, 8e4)):
        if least <= first <= most:
            return (unit, *(other for other in _UNITS if other != unit))
    return tuple(_UNITS)


