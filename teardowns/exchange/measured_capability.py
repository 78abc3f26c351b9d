"""Which units measure the habits of the trade: those whose own power was found on a load.

A unit's capability counts as measured when a load was held and more was found to be too much, in
the same conditions, and the two lie close together: within a quarter; or within the 1.6 that a
maker gives at most beyond a claim (the engine's own reach) where the claim was held. What is only
printed or published is no measurement.
"""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isnan, nan, sqrt
from typing import Any

from teardowns.engine.posterior import ABOVE, MET
from teardowns.exchange.load_bounds import NONE_HELD, NoBounds, load_bounds
from teardowns.exchange.observations import is_recorded

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
    try:
        bounds = load_bounds(document, confirmed_only)
    except NoBounds as error:
        raise NotMeasured(str(error)) from error
    if isnan(bounds.held):
        raise NotMeasured(NONE_HELD)
    if isnan(bounds.lost):
        raise NotMeasured("the load that is too much is not known")
    return _between(bounds, claimed_power)


def _has_ballast(document):
    weighed = (row for row in document["measurements"] if row["quantity"] == "mass_ballast")
    found = (row for row in document["components"] if row["role"] == "ballast")
    return any(is_recorded(row) and row["value"] > 0 for row in weighed) or any(
        is_recorded(row) for row in found)


def _between(bounds, claimed_power):
    ratio = bounds.lost / bounds.held if bounds.held > 0 else nan
    meets = bounds.held >= MET * claimed_power
    if not (ratio <= CLOSE or (meets and ratio <= ABOVE)):
        raise NotMeasured("the load that was held and the one that was too much lie too far apart")
    return MeasuredCapability(sqrt(bounds.held * bounds.lost), bounds.mains_voltage,
                              bounds.output_voltage)
