"""How units that contain a part compare with the power that its data sheet gives."""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from django.urls import reverse
from django.utils.safestring import SafeString, mark_safe

from core.words.as_written import AsWritten
from core.words.said import said
from teardowns.models import PartLimit
from teardowns.reading.quantity import print_interval

from .list_words import number_of
from .method_sheet import rule_anchor
from .numbers import as_recorded, volts
from .part_powers_chart import powers_chart
from .part_ranges import RANGES, Powers, Range, Seen, ends_in, seen_in
from .population_units import times, watts

# Common practice in reading data sheets, no source: what a table of power leaves open.
CAUTIONS = (
    "A published power is typical of a good design, not a rating of the unit: the table’s notes "
    "say for which output voltage, which switch temperature and which supply it was drawn up.",
    "Tables give open frames more than closed adapters, and name the air around them, often "
    "50 °C. A closed plug-in unit is nearer to the smaller figure.",
    "It is a continuous power; for seconds a unit can deliver more.",
    "A claim above it is not refuted by that alone, and a unit that delivers more is not thereby "
    "wrong. What a unit’s evidence says together stands on its page.",
    "A marking is what is printed. Whether the part is what its marking says was not established.",
)


@dataclass(frozen=True, slots=True)
class Comparison:
    name: str                    # "18 W for 85 to 265 V"
    drawing: SafeString          # "" where no unit can be compared
    says: Sequence[str]
    working: str                 # address of the rule that uses the cited power


@dataclass(frozen=True, slots=True)
class PowerCells:
    """What the table of units says of one."""

    measured: str
    worked_out: Sequence[str]
    over: str = ""               # "× 3.6 the cited 18 W", of a claim above it


UNKNOWN_POWERS = PowerCells("not measured", ("unknown",))


def comparisons(limits: Iterable[PartLimit], units: Sequence[Powers]) -> list[Comparison]:
    """One for each supply that a power is cited for, where units that contain the part are known.
    """
    cited = cited_powers(limits)
    return [_comparison(one, cited[one.code], seen_in(units, one))
            for one in RANGES if one.code in cited and units]


def by_unit(limits: Iterable[PartLimit], units: Iterable[Powers]) -> dict[int, PowerCells]:
    cited = cited_powers(limits)
    return {unit.pk: power_cells(unit, cited) for unit in units}


def cited_powers(limits: Iterable[PartLimit]) -> dict[str, list[float]]:
    """By quantity, the powers that are cited, the least first."""
    found: dict[str, set[float]] = {}
    for limit in limits:
        if limit.value > 0:
            found.setdefault(limit.quantity, set()).add(limit.value)
    return {code: sorted(values) for code, values in found.items()}


def power_cells(unit: Powers, cited: Mapping[str, Sequence[float]]) -> PowerCells:
    measured = "not measured"
    if unit.measured is not None:
        mains = unit.measured_mains
        at = "mains not stated" if mains is None else f"at {volts(mains)}"
        measured = f"{watts(unit.measured)} {at}"
    ends = {end.voltage: end for end in unit.ends}.values()
    return PowerCells(measured, [f"{print_interval(end.low, end.high, 'W')} at {volts(end.voltage)}"
                                 + (", assumed" if end.is_assumed else "") for end in ends]
                      or ["unknown"],
                      _over(unit, cited))


def _over(unit: Powers, cited: Mapping[str, Sequence[float]]) -> str:
    """A claim holds for the whole plate, so it is held against the first range that it reaches
    into."""
    for one in RANGES:
        if one.code in cited and ends_in(unit, one):
            least = cited[one.code][0]
            if unit.claimed is None or unit.claimed <= least:
                return ""
            return f"{times(unit.claimed / least)} the cited {as_recorded(least, 'W')}"
    return ""


def _comparison(one: Range, cited: Sequence[float], seen: Sequence[Seen]) -> Comparison:
    stated = said(" or ".join(as_recorded(value, "W") for value in cited))
    says = _says(one, cited, seen) if seen else [
        f"No unit with it is known to be for mains {one.mains}."]
    drawing = powers_chart(cited, seen) if seen else ""
    name = AsWritten(f"{stated} {said('for')} {said(one.name)}")
    return Comparison(name, mark_safe(drawing), says,
                      f"{reverse('method')}#{rule_anchor(one.code)}")


def _says(one: Range, cited: Sequence[float], seen: Sequence[Seen]) -> list[str]:
    least = cited[0]
    differ = (f" Sources differ; {as_recorded(least, 'W')} is the least." if len(cited) > 1 else "")
    claiming = [s.unit.claimed for s in seen if s.unit.claimed is not None]
    more = sum(claim > least for claim in claiming)
    are, state = ("is" if len(seen) == 1 else "are"), ("states" if len(claiming) == 1 else "state")
    return [f"{number_of(len(seen))} with it {are} for mains {one.mains}, of which {len(claiming)} "
            f"{state} a power: {more} more than {as_recorded(least, 'W')}.{differ}",
            _told("Measured on a load there", [s.measured for s in seen if s.measured], least),
            _worked_out(seen, least)]


def _told(lead: str, values: Sequence[float], cited: float) -> str:
    if not values:
        return f"{lead}: none."
    low, high = min(values), max(values)
    if len(values) == 1:
        return f"{lead}: 1 unit, {watts(low)}, {times(low / cited)} the cited power."
    return (f"{lead}: {number_of(len(values))}, {print_interval(low, high, 'W')}, "
            f"{times(low / cited)} to {times(high / cited)} the cited power.")


def _worked_out(seen: Sequence[Seen], cited: float) -> str:
    values = [s.worked_out.median for s in seen if s.worked_out is not None]
    told = _told("Not measured, worked out from the parts", values, cited)
    circular = " These can rest on the cited power too, so they do not test it."
    return told + circular if values else told
