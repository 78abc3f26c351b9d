"""Clock of day, date and time, elapsed hours: how a log writes when a reading was taken.

ISO 8601-1 is one way among those understood: year, month, day; hour, minute, second with a
decimal point or comma; Z or an offset from UTC. The rest (order of day and month, AM and PM,
names of months) is common practice, no source.
"""
from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from datetime import date
from itertools import pairwise

from teardowns.logs.refusals import RefusedLog

ORDERS = {"ymd": "year, month, day", "dmy": "day, month, year", "mdy": "month, day, year"}
DAY = 86400.0
# Seconds are counted from here and not from year 1, so that a float keeps tenths of a µs.
_ORIGIN = date(2000, 1, 1).toordinal()
_CLOCK = (r"(?P<h>[0-9]{1,4}):(?P<m>[0-9]{2})(?::(?P<s>[0-9]{2}))?(?:[.,](?P<f>[0-9]{1,12}))?"
          r"(?:\s?(?P<half>[AaPp])\.?[Mm]\.?)?")
_ZONE = r"(?P<zone>Z|[+-][0-9]{2}:?[0-9]{2})?"
_DATE = (r"(?P<a>[0-9]{4}|[0-9]{1,2})(?P<mark>[-/.])(?P<b>[0-9]{1,2}|[^\W\d_]{3,10}\.?)(?P=mark)"
         r"(?P<c>[0-9]{4}|[0-9]{1,2})")
_SPACED = r"(?P<a>[0-9]{1,2})\.? (?P<b>[^\W\d_]{3,10})\.? (?P<c>[0-9]{4})"
_PATTERNS = tuple(re.compile(pattern) for pattern in (
    _CLOCK + _ZONE,
    rf"{_DATE}(?:(?:T|,? +){_CLOCK}\s?{_ZONE})?",
    rf"{_SPACED}(?:,? +{_CLOCK}\s?{_ZONE})?",
    r"(?P<a>[0-9]{4})(?P<b>[0-9]{2})(?P<c>[0-9]{2})T(?P<h>[0-9]{2})(?P<m>[0-9]{2})(?P<s>[0-9]{2})"
    r"(?:[.,](?P<f>[0-9]{1,12}))?" + _ZONE,
))
# Names of months by their first letters: English, German, French, Spanish, Italian, Dutch.
_MONTHS = {start: month for month, starts in enumerate((
    "jan ene gen janv", "feb fev fevr", "mar mars maa mrt mrz mae marz", "apr avr abr",
    "may mai mag mei mayo maj", "jun juin giu", "jul juil lug", "aug aou ago", "sep set",
    "oct okt ott", "nov", "dec dez dic"), 1) for start in starts.split()}


def is_clock(cell: str) -> bool:
    return _match(cell) is not None


def has_date(cell: str) -> bool:
    found = _match(cell)
    return found is not None and "a" in found.re.groupindex


def is_two_part(cell: str) -> bool:
    """ "03:04", which may be hours and minutes or minutes and seconds."""
    found = _match(cell)
    return found is not None and not has_date(cell) and found["s"] is None and not found["half"]


def seconds_of(cell: str, date_order: str = "", minutes_first: bool = False) -> float:
    """Seconds of day of a clock; from the start of 2000 where a date is given (UTC if said so)."""
    found = _match(cell)
    if found is None:
        raise _unread(cell)
    groups = found.groupdict()
    day = _days(cell, groups, date_order) if "a" in groups else None
    clock = _clock(cell, groups, day is not None, minutes_first) if groups["h"] else 0.0
    return clock - _offset(groups["zone"]) + (day or 0) * DAY


def possible_orders(cells: Sequence[str]) -> tuple[str, ...]:
    """The orders of day, month and year under which all of these dates exist and time ascends.

    Where several do, an order that leaps whole days gives way to the one that does not: a date
    that changes at midnight shows which figure is the day.
    """
    steps = {order: step for order in ORDERS if (step := _greatest_step(cells, order)) is not None}
    smooth = [order for order, step in steps.items() if step < DAY]
    leaps = any(step >= DAY for step in steps.values())
    return tuple(smooth if smooth and leaps else steps)


def _match(cell: str) -> re.Match[str] | None:
    if len(cell) > 40 or ":" not in cell and len(cell) < 8:
        return None
    found = (pattern.fullmatch(cell) for pattern in _PATTERNS)
    return next((match for match in found if match), None)


def _greatest_step(cells: Sequence[str], order: str) -> float | None:
    try:
        times = [seconds_of(cell, order) for cell in cells]
    except RefusedLog:
        return None
    steps = [later - sooner for sooner, later in pairwise(times)]
    return None if steps and min(steps) < 0 else max(steps, default=0.0)


def _clock(cell: str, groups: dict[str, str | None], dated: bool, minutes_first: bool) -> float:
    hours, minutes, seconds = int(groups["h"] or 0), int(groups["m"] or 0), int(groups["s"] or 0)
    fraction = float(f"0.{groups['f']}") if groups["f"] else 0.0
    half = (groups.get("half") or "").lower()
    if half and not 1 <= hours <= 12:
        raise _unread(cell)
    if half:
        hours = hours % 12 + 12 * (half == "p")
    if groups["s"] is None and not dated and not half and (minutes_first or groups["f"]):
        hours, minutes, seconds = 0, hours, minutes
        return _sum(cell, hours, 0, seconds) + 60.0 * minutes + fraction
    if groups["s"] is None and groups["f"] or dated and hours > 23:
        raise _unread(cell)
    return _sum(cell, hours, minutes, seconds) + fraction


def _sum(cell: str, hours: int, minutes: int, seconds: int) -> float:
    if minutes > 59 or seconds > 59:
        raise _unread(cell)
    return 3600.0 * hours + 60.0 * minutes + seconds


def _days(cell: str, groups: dict[str, str | None], date_order: str) -> int:
    figures = [groups["a"] or "", groups["b"] or "", groups["c"] or ""]
    month = _month(figures[1])
    order = date_order or "ymd"
    if month:
        figures[1], order = str(month), "ymd" if len(figures[0]) == 4 else "dmy"
    if len(figures[0]) == 4:
        order = "ymd" if date_order in {"", "ymd"} or month else date_order
    written = dict(zip(order, figures, strict=True))
    if any(len(written[part]) == 4 for part in "md") or any(
            len(f) == 4 for f in figures) and len(written["y"]) != 4:
        raise _unread(cell)
    year = int(written["y"]) + (2000 if len(written["y"]) < 4 else 0)
    try:
        return date(year, int(written["m"]), int(written["d"])).toordinal() - _ORIGIN
    except ValueError:
        raise _unread(cell) from None


def _month(word: str) -> int:
    if word.isdigit():
        return 0
    plain = unicodedata.normalize("NFKD", word).encode("ascii", "ignore").decode().lower()
    month = _MONTHS.get(plain[:4].rstrip(".")) or _MONTHS.get(plain[:3])
    return month or 13                    # no month: refused as a date that does not exist


def _offset(zone: str | None) -> float:
    if not zone or zone == "Z":
        return 0.0
    return (-1 if zone[0] == "-" else 1) * (3600.0 * int(zone[1:3]) + 60.0 * int(zone[-2:]))


def _unread(cell: str) -> RefusedLog:
    return RefusedLog("clock_time", f"“{cell[:40]}” is not read as a time. Write clock times as "
                      "14:03:59 and dates as 2026-03-04, or choose another order of day and month.")
