"""What lists, facets and populations know of a public unit: facts of its document and its report.

Confirmed evidence only. What nobody confirmed is unknown: None or empty, never 0.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import isnan, nan, prod
from statistics import fmean
from typing import Any

from teardowns.exchange.answered import CASE, answered_share
from teardowns.exchange.document import counts
from teardowns.exchange.load_bounds import NoBounds, load_bounds
from teardowns.exchange.measured_capability import NotMeasured, measured_capability
from teardowns.exchange.observations import is_recorded, observations

Row = Mapping[str, Any]
ACROSS = "PRI_SEC"
# What the library says of the primary controller → the power stage that it is made for. The first
# word that is found decides: a quasi-resonant controller drives a flyback.
STAGES = (("quasi-resonant", "flyback"), ("flyback", "flyback"), ("resonant", "resonant"),
          ("half-bridge", "half_bridge"), ("forward", "forward"))
CORRECTED = "corrected_"
LOAD_TEST = ("load_held", "load_lost", "load_mains")
TOPOLOGIES = {
    "flyback": "flyback",
    "corrected_flyback": "power-factor corrector, then flyback",
    "resonant": "resonant",
    "corrected_resonant": "power-factor corrector, then resonant",
    "half_bridge": "half-bridge",
    "corrected_half_bridge": "power-factor corrector, then half-bridge",
    "forward": "forward",
    "corrected_forward": "power-factor corrector, then forward",
}


def listing_facts(document: Mapping[str, Any], payload: Mapping[str, Any]) -> dict[str, Any]:
    """By column of the listing; of a full document, and of the report on its confirmed evidence."""
    found = _values(document)
    components = _counting(document["components"])
    claimed, capability = _claimed(payload), _capability(payload)
    return {
        "measured_power": _measured_power(document, claimed),
        **_load_test(document),
        "gap": claimed / capability if claimed and capability else None,
        "year": _year(document["unit"]),
        "reach": document["unit"].get("listing_reach"),
        "completeness": answered_share(document),
        "topology": _topology(components, document["parts"], found),
        "controller": _controller(components),
        "mass": _mass(document["components"], found),
        "volume": prod(found[code] for code in CASE) if found.keys() >= set(CASE) else None,
        "bulk_capacitance": found.get("bulk_capacitance", found.get("bulk_capacitance_marked")),
        "insulation_margin": _margin(payload),
        "connectors": _each_once(row["connector"] for row in _counting(document["ports"])),
        "hazards": _each_once(one["hazard"] for one in payload["safety"]["findings"]),
    }


def _counting(rows: Iterable[Row]) -> list[Row]:
    return [row for row in rows if is_recorded(row) and counts(row, confirmed_only=True)]


def _values(document) -> dict[str, float]:
    """Of each quantity that was observed, the mean of its readings. [SI]"""
    readings: dict[str, list[float]] = {}
    for seen in observations(document, confirmed_only=True):
        readings.setdefault(seen.code, []).append(seen.value)
    return {code: fmean(values) for code, values in readings.items()}


def _claimed(payload) -> float | None:
    """The largest power claim, as lists print it. [W]"""
    headline = payload["headline"]
    return None if headline is None else payload["claims"][headline]["power"]


def _capability(payload) -> float | None:
    """The median at the lower mains end, as lists print it. [W]"""
    low = payload["capability"]["low"]
    return None if low is None else low["median"]


def _measured_power(document, claimed) -> float | None:
    try:
        power = measured_capability(document, nan if claimed is None else claimed,
                                    confirmed_only=True).power
    except NotMeasured:
        return None
    return None if isnan(power) else power


def _load_test(document) -> dict[str, float | None]:
    """What the unit held and what was too much [W], and the mains of that test [V]."""
    try:
        found = load_bounds(document, confirmed_only=True)
    except NoBounds:
        return dict.fromkeys(LOAD_TEST)
    values = (found.held, found.lost, found.mains_voltage)
    return {name: None if isnan(value) else value
            for name, value in zip(LOAD_TEST, values, strict=True)}


def _year(unit) -> int | None:
    obtained = unit.get("obtained_on")
    return int(obtained[:4]) if obtained else None


def _topology(components, parts, found) -> str:
    """Of the primary controllers that the library knows, where they agree."""
    functions = {part["marking"]: part["function"].casefold() for part in parts}
    stages = {_stage(functions[row["part"]]) for row in components
              if row["role"] == "primary_controller" and row.get("part") in functions}
    stage = stages.pop() if len(stages) == 1 else ""
    return CORRECTED + stage if stage and found.get("power_factor_corrector") else stage


def _stage(function):
    return next((stage for word, stage in STAGES if word in function), "")


def _controller(components) -> str:
    """The library's marking where a row cites it, else what is printed on it."""
    found = (row.get("part") or row["marking"] for row in components
             if row["role"] == "primary_controller")
    return next(filter(None, found), "")


def _mass(components, found) -> float | None:
    """Without parts that do nothing; unknown where one was found that nobody weighed. [kg]"""
    if "mass_total" not in found:
        return None
    has_ballast = any(row["role"] == "ballast" and is_recorded(row) for row in components)
    if has_ballast and "mass_ballast" not in found:
        return None
    return found["mass_total"] - found.get("mass_ballast", 0.0)


def _margin(payload) -> float | None:
    """Smallest distance over its requirement, of the paths between mains side and output."""
    ratios = [one["ratio"] for one in payload["safety"]["results"]
              if one["on"] == "path" and one["barrier"] == ACROSS and not one["largest"]
              and one["ratio"] is not None]
    return min(ratios, default=None)


def _each_once(codes: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(codes))
