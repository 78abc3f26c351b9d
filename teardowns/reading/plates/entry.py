"""One rating while it is being collected, and the claims it becomes."""

from __future__ import annotations

from dataclasses import dataclass, field

from teardowns.reading.plates.claims import Fields
from teardowns.reading.plates.items import Item, Part

RANGE_PROTOCOLS = frozenset(("PPS", "AVS"))
Level = tuple[Part | None, Part | None]  # volts, amperes


@dataclass(slots=True)
class Entry:
    """The quantities printed for one rating, in whatever order they came."""

    kind: str  # "input", "output" or "total"
    ports: tuple[str, ...] = ()
    joined: str = ""  # the sign between the ports
    number_at_port: int = 1  # first, second, … rating of its port
    shared: bool | None = None
    nature: str | None = None
    protocol: tuple[str, str] = ("", "")
    items: dict[str, Item] = field(default_factory=dict)  # by item kind
    covered: list[tuple[int, int]] = field(default_factory=list)  # what belongs to it

    def take(self, item: Item) -> None:
        self.items[item.kind] = item
        self.cover(item)

    def cover(self, item: Item) -> None:
        self.covered.append((item.start, item.end))

    def span(self) -> tuple[int, int]:
        return min(start for start, _ in self.covered), max(end for _, end in self.covered)

    def has(self, *kinds: str) -> bool:
        return all(kind in self.items for kind in kinds)

    @property
    def line(self) -> int:
        return max(item.line for item in self.items.values())

    def products(self) -> list[float]:
        """V × A of every level, in watts; empty where one of them is missing."""
        return [v[1] * a[1] for v, a in self.levels() if v is not None and a is not None]

    def levels(self) -> list[Level]:
        """(volts, amperes) of each level, lists paired by position; None for what is missing."""
        volts: tuple[Part | None, ...] = self.parts("volt") or (None,)
        amperes: tuple[Part | None, ...] = self.parts("ampere") or (None,)
        if len(amperes) == 1 or len(volts) == len(amperes):
            amperes = amperes * len(volts) if len(amperes) == 1 else amperes
            return list(zip(volts, amperes, strict=True))
        if len(volts) == 1:
            return [(volts[0], ampere) for ampere in amperes]
        return [(volt, None) for volt in volts]

    def parts(self, kind: str) -> tuple[Part, ...]:
        return self.items[kind].parts if kind in self.items else ()

    def doubt(self) -> str:
        """What a person must decide about how the lists belong together, or an empty string."""
        volts, amperes = self.parts("volt"), self.parts("ampere")
        if len(volts) == 1 and len(amperes) > 1:
            return "several currents for one voltage: do they belong to different ports?"
        if len(volts) > 1 and len(amperes) > 1 and len(volts) != len(amperes):
            return "the voltages and the currents are not equally many: which belong together?"
        return ""


def output_fields(entry: Entry) -> list[Fields]:
    """Fields of the claims of an output or total: one claim a level."""
    watts = entry.parts("watt")
    levels = entry.levels()
    fields = []
    for number, (volt, ampere) in enumerate(levels):
        level = _level_fields(entry, volt, ampere)
        watt = _watt_of_level(watts, number, len(levels), volt, ampere)
        if watt is not None:
            level |= {"power": watt[1], "power_stated": True}
        fields.append(level)
    return fields


def _level_fields(entry: Entry, volt: Part | None, ampere: Part | None) -> Fields:
    protocol = _protocol_for(entry, volt)
    level: Fields = {"kind": entry.kind, "nature": entry.nature, "shared": entry.shared,
                     "port": entry.joined.join(entry.ports), "protocol": protocol[0],
                     "protocol_version": protocol[1]}  # fmt: skip
    if volt is not None and volt[0] == volt[1]:
        level["voltage"] = volt[0]
    elif volt is not None:
        level |= {"voltage_low": volt[0], "voltage_high": volt[1]}
    if hertz := entry.parts("hertz"):
        level |= {"frequency_low": hertz[0][0], "frequency_high": hertz[-1][1]}
    if ampere is not None:
        level["current"] = ampere[1]
        level["currents"] = ampere if ampere[0] != ampere[1] else ()
    return level


def _protocol_for(entry: Entry, volt: Part | None) -> tuple[str, str]:
    """PPS and AVS describe ranges only; a fixed level after them is not theirs."""
    fixed = volt is not None and volt[0] == volt[1]
    return ("", "") if fixed and entry.protocol[0] in RANGE_PROTOCOLS else entry.protocol


def _watt_of_level(
    watts: tuple[Part, ...], number: int, count: int, volt: Part | None, ampere: Part | None
) -> Part | None:
    if len(watts) == count:
        return watts[number]
    if len(watts) != 1:
        return None
    if count == 1 or volt is None or ampere is None:
        return watts[0]
    return watts[0] if agrees(volt[1] * ampere[1], watts[0][1]) else None


def agrees(product: float, watts: float) -> bool:
    """Within 5 %, the rounding that plates use; a hundredth of an ampere matters at 20 V."""
    return abs(product - watts) <= 0.05 * watts


def input_fields(entry: Entry) -> list[Fields]:
    """Fields of the claims of an input: one a voltage range, selectable voltages in one claim."""
    volts = entry.parts("volt")
    if not any(low != high for low, high in volts):
        return [_input_voltages(entry, volts) | _input_rest(entry, entry.parts("ampere"))]
    amperes = entry.parts("ampere")
    paired = len(amperes) == len(volts)
    return [
        _input_voltages(entry, (volt,)) | _input_rest(entry, (amperes[i],) if paired else amperes)
        for i, volt in enumerate(volts)
    ]


def _input_voltages(entry: Entry, volts: tuple[Part, ...]) -> Fields:
    fields: Fields = {"kind": "input", "nature": entry.nature}
    if volts:
        fields["voltage_low"] = min(low for low, _ in volts)
        fields["voltage_high"] = max(high for _, high in volts)
        fields["voltages"] = tuple(low for low, _ in volts) if len(volts) > 1 else ()
    return fields


def _input_rest(entry: Entry, amperes: tuple[Part, ...]) -> Fields:
    fields: Fields = {}
    if hertz := entry.parts("hertz"):
        fields["frequency_low"] = min(low for low, _ in hertz)
        fields["frequency_high"] = max(high for _, high in hertz)
    if amperes:
        values = tuple(dict.fromkeys(value for part in amperes for value in part))
        fields["current"] = max(values)
        fields["currents"] = values if len(values) > 1 else ()
    if watts := entry.parts("watt"):
        fields |= {"power": max(high for _, high in watts), "power_stated": True}
    if voltamperes := entry.parts("voltampere"):
        fields["apparent_power"] = max(high for _, high in voltamperes)
    return fields
