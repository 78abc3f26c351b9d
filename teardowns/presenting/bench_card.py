"""The bench card in words: what the capacitors may hold, how long, what to discharge them with."""
from __future__ import annotations

from dataclasses import dataclass

from teardowns.engine.bench_card import unknown_card, waiting_times
from teardowns.reading.printing import print_quantity

from .numbers import as_recorded, volts

MINUTE, HOUR = 60.0, 3600.0
MEASURE = "Measure it all the same, and again after discharging."
CHARGED = ("No resistor that empties it is known: assume it charged indefinitely, and measure. A "
           "converter that has stopped may draw nothing.")
VOLTAGE_BY = {
    "mains": "the peak of {mains}", "measured": "as was measured across it",
    "doubler": "which a voltage doubler makes of {mains}",
    "corrector": "to which a power-factor corrector may charge it, by its rating",
}
MUCH = ("That is above 20\u202fJ, which the withdrawn IEC 60950-1 called an energy hazard (from "
        "memory).")


@dataclass(frozen=True, slots=True)
class Way:
    """One resistor to discharge with."""

    resistance: str
    until: str              # until it is harmless; "not known" without a capacitance
    keep: str
    first: str              # power at the first instant
    is_chosen: bool


@dataclass(frozen=True, slots=True)
class BenchCard:
    sentences: tuple[str, ...]
    ways: tuple[Way, ...]               # none while the capacitance is not known
    heads: tuple[str, ...]              # of the table of usual capacitors
    waits: tuple[tuple[str, tuple[str, ...]], ...]


def bench_card(found: dict | None) -> BenchCard:
    """From the engine's card; None: nothing was assessed yet."""
    found = unknown_card() if found is None or "pins" not in found else found
    known = found["capacitance"] is not None
    return BenchCard(
        sentences=tuple(filter(None, (_held(found), _much(found), _path(found), _pins(found),
                                      _advice(found)))),
        ways=tuple(map(_way, found["discharge"])) if known else (),
        heads=tuple(_resistor(way) for way in found["discharge"]),
        waits=() if known else tuple(
            (as_recorded(farad, "F"), tuple(map(duration, times)))
            for farad, times in waiting_times()),
    )


def duration(seconds: float | None) -> str:
    """ "0.40 s", "3.1 min", "2.5 h" """
    if seconds is None:
        return "not known"
    if seconds < 0.01:
        return "less than 0.01\u202fs"
    if seconds < 0.995 * MINUTE:
        return f"{_digits(seconds)}\u202fs"
    unit, name = (MINUTE, "min") if seconds < HOUR else (HOUR, "h")
    return f"{_digits(seconds / unit)}\u202f{name}"


def _digits(number: float) -> str:
    """Two digits, hundredths at most."""
    if number >= 9.95:
        return f"{number:.0f}"
    return f"{number:.1f}" if number >= 0.995 else f"{number:.2f}"


def _held(found):
    mains = (f"1.1 times {volts(found['mains'])}" if found["mains"] is not None
             else f"{volts(264)} (the plate was not read)")
    most = f"{found['voltage']:.0f}\u202fV"
    because = VOLTAGE_BY[found["voltage_by"]].format(mains=mains)
    if found["energy"] is None:
        return (f"The bulk capacitor may hold up to {most}, {because}. Its capacitance is not "
                "recorded yet, nor is its energy known.")
    how = "measured" if found["is_measured"] else "as marked"
    return (f"The bulk capacitor, {as_recorded(found['capacitance'], 'F')} {how}, may hold up to "
            f"{print_quantity(found['energy'], 'J', digits=2)} at {most}, {because}.")


def _much(found):
    return MUCH if found["is_energy_hazard"] else ""


def _path(found):
    path = found["path"]
    if path is None:
        return CHARGED
    if path["seconds"] is None:
        return (f"How long the {_resistor(path)} found across it take to empty it is not known. "
                f"{MEASURE}")
    return (f"The {_resistor(path)} found across it bring it down to {volts(found['harmless'])} in "
            f"{duration(path['seconds'])}, if every joint holds. {MEASURE}")


def _pins(found):
    pins = found["pins"]
    if pins is None:
        return "The pins may be charged as well: measure between them."
    size = as_recorded(pins["capacitance"], "F")
    if pins["seconds"] is None:
        return (f"The pins hold {size} and no resistor across them is known: assume them charged, "
                "and measure.")
    return (f"The pins hold {size}; the {_resistor(pins)} found across them bring it down to "
            f"{volts(found['harmless'])} in {duration(pins['seconds'])}. Measure between them.")


def _advice(found):
    way = next(way for way in found["discharge"] if way["is_chosen"])
    if found["capacitance"] is None:
        return ("Discharge it with 2.2 to 10\u202fkΩ, a wire-wound power type with insulated "
                "clips, then measure again.")
    return (f"Discharge it with {_resistor(way)}, a wire-wound power type with insulated clips: "
            f"{_watts(way)} at the first instant, {duration(way['seconds'])} until "
            f"{volts(found['harmless'])}. Keep it on for at least {duration(way['keep'])}, then "
            "measure again.")


def _way(way) -> Way:
    return Way(_resistor(way), duration(way["seconds"]), duration(way["keep"]), _watts(way),
               way["is_chosen"])


def _resistor(way):
    return as_recorded(way["resistance"], "Ω")


def _watts(way):
    return f"{way['first_power']:.0f}\u202fW"
