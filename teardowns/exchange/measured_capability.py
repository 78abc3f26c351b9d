"""Which units measure the habits of the trade: those whose own power was found on a load.

A unit's capability counts as measured when a load was held and more was found to be too much, in
the same conditions, and the two lie close together: within a quarter; or within the 1.6 that a
maker gives at most beyond a claim (the engine's own reach) where the claim was held. What is only
printed or published is no measurement.
"""
from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import nan, sqrt
from typing import Any

from teardowns.engine.conditions import HELD, LOST, OVERCURRENT, REACH, SAME_VOLTAGE
from teardowns.engine.posterior import ABOVE, MET
from teardowns.exchange.document import counts
from teardowns.exchange.observations import is_recorded

Row = Mapping[str, Any]
CLOSE = 1.25          # lost over held: the middle is then right within 7 %; our own choice


class NotMeasured(Exception):
    """Why a unit's capability does not count as measured."""


@dataclass(frozen=True, slots=True)
class MeasuredCapability:
    power: float               # W, the middle of the load that was held and the one that was not
    mains_voltage: float       # V rms during the test, NaN = not stated
    output_voltage: float      # V, NaN = not stated


def measured_capability(document: Mapping[str, Any], claimed_power: float,
                        confirmed_only: bool = False) -> MeasuredCapability:
    """What a full document says of the unit's capability; raises NotMeasured.

    claimed_power : the largest claim, NaN without one [W]; confirmed_only : of loads, while ballast
    counts as soon as anybody recorded it
    """
    if _has_ballast(document):
        raise NotMeasured("a part without function was found")
    loads = _loads(document, confirmed_only)
    held = [row for row in loads if row["quantity"] == HELD]
    if not held:
        raise NotMeasured("no load that was held was measured")
    highest = max(held, key=lambda row: row["value"])
    ceilings = [watts for row in loads if _alike(highest, row) for watts in _too_much(row)]
    if not ceilings:
        raise NotMeasured("the load that is too much is not known")
    return _between(highest, min(ceilings), claimed_power)


def _has_ballast(document):
    weighed = (row for row in document["measurements"] if row["quantity"] == "mass_ballast")
    found = (row for row in document["components"] if row["role"] == "ballast")
    return any(is_recorded(row) and row["value"] > 0 for row in weighed) or any(
        is_recorded(row) for row in found)


def _loads(document, confirmed_only) -> list[Row]:
    """The measured load tests of the unit as a whole."""
    rows = [row for row in document["measurements"]
            if row["quantity"] in (HELD, LOST, OVERCURRENT) and is_recorded(row)]
    if not all(counts(row) for row in rows):
        raise NotMeasured("a load test is disputed")
    rows = [row for row in rows if row["how"] == "measured" and counts(row, confirmed_only)]
    if sum(is_recorded(port) for port in document["ports"]) < 2:
        return rows
    whole = [row for row in rows if not row.get("port")]
    if rows and not whole:
        raise NotMeasured("single ports of several were tested, not the unit")
    return whole


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


def _between(held, ceiling, claimed_power):
    ratio = ceiling / held["value"] if held["value"] > 0 else nan
    if ratio < 1:
        raise NotMeasured("a load was held above one at which regulation was lost")
    meets = held["value"] >= MET * claimed_power
    if not (ratio <= CLOSE or (meets and ratio <= ABOVE)):
        raise NotMeasured("the load that was held and the one that was too much lie too far apart")
    return MeasuredCapability(sqrt(held["value"] * ceiling), held.get("mains_voltage", nan),
                              held.get("output_voltage", nan))
