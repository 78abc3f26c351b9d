"""Between which loads a unit's own power lies: the highest that it held, the lowest too much.

A load test is not judged here. What is only printed or published is no load test.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import isnan, nan
from typing import Any

from teardowns.engine.conditions import HELD, LOST, OVERCURRENT, REACH, SAME_VOLTAGE
from teardowns.engine.port_trips import LESSER, OWN_LIMIT
from teardowns.exchange.document import counts
from teardowns.exchange.observations import is_recorded

Row = Mapping[str, Any]
NONE_HELD = "no load that was held was measured"


class NoBounds(Exception):
    """Why load tests say nothing of the whole unit."""


@dataclass(frozen=True, slots=True)
class LoadBounds:
    held: float                # W, NaN = not known, as below
    lost: float                # W, in the conditions in which `held` was
    mains_voltage: float       # V rms during the test
    output_voltage: float      # V


def load_bounds(document: Mapping[str, Any], confirmed_only: bool = False) -> LoadBounds:
    """Of a full document; raises NoBounds where no load of the unit as a whole says either."""
    loads = _loads(document, confirmed_only)
    held = max((row for row in loads if row["quantity"] == HELD), default=None,
               key=lambda row: row["value"])
    too_much = [(watts, row) for row in loads if held is None or _alike(held, row)
                for watts in _too_much(row)]
    lost, lost_row = min(too_much, default=(nan, {}), key=lambda each: each[0])
    if held is None and isnan(lost):
        raise NoBounds(NONE_HELD)
    power, tested = (nan, lost_row) if held is None else (held["value"], held)
    if lost < power:
        raise NoBounds("a load was held above one at which regulation was lost")
    return LoadBounds(power, lost, tested.get("mains_voltage", nan),
                      tested.get("output_voltage", nan))


def _loads(document, confirmed_only) -> list[Row]:
    """The measured load tests of the unit as a whole."""
    rows = [row for row in document["measurements"]
            if row["quantity"] in (HELD, LOST, OVERCURRENT) and is_recorded(row)]
    if not all(counts(row) for row in rows):
        raise NoBounds("a load test is disputed")
    rows = [row for row in rows if row["how"] == "measured" and counts(row, confirmed_only)]
    if sum(is_recorded(port) for port in document["ports"]) < 2:
        return rows
    # Of several ports an over-current point is that of one, and a load that was lost may be, if
    # nobody noted that all were loaded: it takes one that all held together to tell.
    whole = [row for row in rows if not row.get("port") and row["quantity"] != OVERCURRENT]
    if rows and not any(row["quantity"] == HELD or row["all_ports"] for row in whole):
        raise NoBounds("single ports of several were tested, not the unit")
    return [row for row in whole
            if row["quantity"] != LOST or row["all_ports"]
            or not _may_be_a_ports_own(row, document)]


def _may_be_a_ports_own(row: Row, document: Mapping[str, Any]) -> bool:
    """Whether a load lost at no named port lies where one output may let go by itself.

    As the engine's `port_trips` has it, of what is printed for single outputs.
    """
    claims = [(_watts(claim), claim) for claim in document["claims"]
              if claim["kind"] in ("output", "total") and is_recorded(claim) and counts(claim)]
    largest = max((watts for watts, _ in claims if watts), default=0.0)
    single = [(watts, claim) for watts, claim in claims if watts and claim["kind"] == "output"
              and not claim.get("shared") and watts < LESSER * largest]
    low, high = OWN_LIMIT
    return row["value"] < largest and any(
        low * watts <= row["value"] <= high * watts
        and _near(claim.get("voltage_high", nan), row.get("output_voltage", nan), SAME_VOLTAGE)
        for watts, claim in single)


def _watts(claim: Row) -> float | None:
    volts, amperes = claim.get("voltage_high"), claim.get("current")
    return claim.get("power") or (volts * amperes if volts and amperes else None)


def _alike(held: Row, row: Row) -> bool:
    """Whether two loads were tested in the same conditions; what is not stated does not differ."""
    return (_near(held.get("output_voltage", nan), row.get("output_voltage", nan), SAME_VOLTAGE)
            and _near(held.get("mains_voltage", nan), row.get("mains_voltage", nan), REACH))


def _near(a, b, share):
    return not abs(a - b) > share * a


def _too_much(row: Row) -> Iterator[float]:
    """The power that a row shows to be too much. [W]"""
    if row["quantity"] == LOST:
        yield row["value"]
    if row["quantity"] == OVERCURRENT and row.get("output_voltage"):
        yield row["value"] * row["output_voltage"]
