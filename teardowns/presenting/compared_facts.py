"""The few numbers of a unit by which a comparison explains itself, with what they rest on."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import pi, prod
from statistics import fmean
from typing import Any

from teardowns.exchange.observations import observations

from .compare_columns import Column
from .compare_power import headline
from .looked_states import looked_states

CASE = ("case_height", "case_width", "case_depth")
NOT_RECORDED = "not recorded"
UNLOOKED = "nobody noted a look for ballast"
LOOKED = {"looked, not found": "no ballast found", "not readable": "its ballast was not readable"}


@dataclass(frozen=True, slots=True)
class Known:
    """A value in SI and the row of evidence it rests on; or, without a value, why there is none."""

    value: float | None
    why: str = ""                   # "not readable", "its ballast was not weighed"
    remark: str = ""                # "as marked", "mean of 2 readings"
    ref: str = ""


@dataclass(frozen=True, slots=True)
class Facts:
    """Of one unit; powers in W, at the lower end of its rated mains range."""

    letter: str
    claimed: float | None
    capability: float | None        # the middle
    low: float | None               # of its 90 % interval
    high: float | None
    verdict: str                    # of its largest power claim, "" without one
    risk: str                       # level of its gravest finding, "" without one
    against: tuple[str, float] | None       # the line that weighs most against it, decibans
    mass: Known                     # kg, of the whole unit
    ballast: Known                  # kg, of parts with no function
    working_mass: Known             # kg, without them
    volume: Known                   # m³, of the case
    bulk_capacitance: Known         # F
    core_area: Known                # m²
    copper: Known                   # m², conductor cross-section of the output winding
    primary_turns: Known


def facts_of(column: Column) -> Facts:
    report, seen = column.report, _Seen(column)
    claim, found = headline(report), report["capability"]["low"] or {}
    return Facts(
        letter=column.letter, claimed=claim["power"] if claim else None,
        capability=found.get("median"), low=found.get("low"), high=found.get("high"),
        verdict=claim["verdict"] if claim else "",
        risk=(report.get("safety") or {}).get("level", ""), against=_against(report, claim),
        mass=seen["mass_total"], ballast=_ballast(seen), working_mass=_working_mass(seen),
        volume=_volume(seen), bulk_capacitance=_bulk(seen), core_area=seen["core_effective_area"],
        copper=_copper(seen), primary_turns=seen["primary_turns"])


class _Seen:
    """What was observed of a unit, by the code of the quantity; confirmed evidence alone."""

    def __init__(self, column: Column):
        compared = column.compared
        self._readings: dict[str, list[Any]] = {}
        for one in observations(compared.publication.document, confirmed_only=True):
            self._readings.setdefault(one.code, []).append(one)
        parts = compared.counted("component")
        self._states = looked_states(compared.counted("measurement"), parts)
        self.ballasts = [row for row in parts if row.role == "ballast"]

    def __getitem__(self, code: str) -> Known:
        readings: Sequence[Any] = self._readings.get(code, ())
        if not readings:
            return Known(None, self._states.get(code, NOT_RECORDED))
        several = f"mean of {len(readings)} readings" if len(readings) > 1 else ""
        return Known(fmean(one.value for one in readings), "", several,
                     next(iter(readings[0].refs), ""))


def _against(report: Mapping[str, Any], claim) -> tuple[str, float] | None:
    if claim is None or not claim["weights"]:
        return None
    heaviest = min(claim["weights"], key=lambda one: one["decibans"])
    title = next(line["title"] for line in report["lines"] if line["id"] == heaviest["line"])
    return (title, heaviest["decibans"]) if heaviest["decibans"] < 0 else None


def _ballast(seen: _Seen) -> Known:
    weighed = seen["mass_ballast"]
    if weighed.value is not None or not seen.ballasts:
        return weighed
    row = seen.ballasts[0]
    if row.state == "recorded":
        return Known(None, "found, its mass not recorded", ref=row.ref)
    return Known(None, row.get_state_display().lower(), ref=row.ref)


def _working_mass(seen: _Seen) -> Known:
    """Without ballast; not known where some was found that nobody weighed."""
    total, ballast = seen["mass_total"], _ballast(seen)
    if total.value is None:
        return total
    if ballast.value is not None:
        return Known(total.value - ballast.value, remark="ballast taken out", ref=total.ref)
    if ballast.why.startswith("found"):
        return Known(None, "its ballast was not weighed", ref=total.ref)
    return Known(total.value, ref=total.ref, remark=LOOKED.get(ballast.why, UNLOOKED))


def _volume(seen: _Seen) -> Known:
    sides = [seen[code] for code in CASE]
    missing = next((side for side in sides if side.value is None), None)
    if missing:
        return Known(None, missing.why)
    return Known(prod(side.value or 0.0 for side in sides), ref=sides[0].ref)


def _bulk(seen: _Seen) -> Known:
    measured, marked = seen["bulk_capacitance"], seen["bulk_capacitance_marked"]
    if measured.value is not None or marked.value is None:
        return measured
    return Known(marked.value, remark="as marked", ref=marked.ref)


def _copper(seen: _Seen) -> Known:
    wire, strands = seen["secondary_wire_diameter"], seen["secondary_strands"]
    if wire.value is None:
        return wire
    if strands.value is None:
        return Known(None, f"strands {strands.why}", ref=wire.ref)
    if wire.remark or strands.remark:        # a mean of different windings is no cross-section
        return Known(None, "several windings that differ", ref=wire.ref)
    return Known(strands.value * pi / 4 * wire.value**2, remark=f"{strands.value:g} strands"
                 if strands.value > 1 else "one strand", ref=wire.ref)
