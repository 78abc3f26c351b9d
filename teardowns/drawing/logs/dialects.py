"""The ways in which invented instruments write their logs: no two write alike."""
from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

import numpy as np

MORNING = datetime(2026, 3, 4, 9, 12, 7)


@dataclass(frozen=True, slots=True)
class Track:
    """One column: what it is, how many decimals its instrument shows, NaN-free."""

    role: str                 # of logs/roles.py
    values: np.ndarray        # (n,) SI
    decimals: int
    place: str = ""           # of a temperature


@dataclass(frozen=True, slots=True)
class Dialect:
    name: str
    encoding: str
    separator: str
    decimal: str
    headings: dict[str, str]          # by role or place
    time: Callable[[float], str]      # s since the start, as written
    preamble: tuple[str, ...] = ()
    factors: tuple[tuple[str, float], ...] = ()       # role → written per SI

    def written(self, time: np.ndarray, tracks: Sequence[Track]) -> bytes:
        heads = [self.headings["time"], *(self._heading(track) for track in tracks)]
        columns = [[self.time(float(t)) for t in time], *(self._cells(track) for track in tracks)]
        rows = [self.separator.join(row) for row in zip(*columns, strict=True)]
        text = "\r\n".join([*self.preamble, self.separator.join(heads), *rows, ""])
        return text.encode(self.encoding)

    def _heading(self, track):
        return self.headings[track.place or track.role]

    def _cells(self, track):
        factor = dict(self.factors).get(track.role, 1.0)
        decimals = max(track.decimals - round(np.log10(factor)), 0)
        return [f"{value:.{decimals}f}".replace(".", self.decimal)
                for value in (track.values * factor).tolist()]


def _seconds(decimal):
    return lambda t: f"{t:.1f}".replace(".", decimal)


def _moment(pattern):
    return lambda t: (MORNING + timedelta(seconds=t)).strftime(pattern)


PLAIN = Dialect(
    "plain", "utf-8", ",", ".", {
        "time": "Time (s)", "output_voltage": "Voltage (V)", "output_current": "Current (A)",
        "output_power": "Power (W)", "set_current": "Set current (A)",
        "input_power": "Input power (W)", "input_voltage": "Input voltage (V)",
        "ambient_temperature": "Ambient (°C)", "case_temperature": "Case (°C)",
        "transformer_temperature": "Transformer (°C)", "switch_temperature": "Switch (°C)",
        "bulk_capacitor_temperature": "Bulk capacitor (°C)",
        "output_rectifier_temperature": "Rectifier (°C)",
    }, _seconds("."))
SEMICOLON = Dialect(
    "semicolon", "utf-8-sig", ";", ",", {
        "time": "Zeit [s]", "output_voltage": "Spannung [V]", "output_current": "Strom [A]",
        "output_power": "Leistung [W]", "set_current": "Sollstrom [A]",
        "input_power": "Eingangsleistung [W]", "input_voltage": "Netzspannung [V]",
        "ambient_temperature": "Umgebung [°C]", "case_temperature": "Gehäuse [°C]",
        "transformer_temperature": "Trafo [°C]", "switch_temperature": "Schalter [°C]",
        "bulk_capacitor_temperature": "Siebelko [°C]",
        "output_rectifier_temperature": "Gleichrichter [°C]",
    }, _seconds(","))
CLOCK = Dialect(
    "clock", "cp1252", "\t", ".", PLAIN.headings | {"time": "Clock"}, _moment("%H:%M:%S"),
    preamble=("Bench load, log", "Channel: 1", "Note: four-wire", ""))
DATED = Dialect(
    "dated", "utf-8", ",", ".", PLAIN.headings | {"time": "Timestamp"},
    _moment("%Y-%m-%d %H:%M:%S"), preamble=("# bench logger, firmware 2",))
MILLI = Dialect(
    "milli", "utf-16", "\t", ".", PLAIN.headings | {
        "time": "t/s", "output_voltage": "U/V", "output_current": "I/mA", "output_power": "P/W",
        "set_current": "I set/mA", "input_power": "P in/W"}, _seconds("."),
    factors=(("output_current", 1e3), ("set_current", 1e3)))
DIALECTS = (PLAIN, SEMICOLON, CLOCK, DATED, MILLI)


def scope_text(interval: float, volts: np.ndarray, number: int) -> bytes:
    """A capture: some write a column of times, some the interval above the samples."""
    if number % 2:
        rows = [f"{value:.2f}" for value in volts.tolist()]
        head = [f"Record length,{len(volts)}", f"Sample interval,{interval:.3E},s", "CH1,V"]
        return "\n".join([*head, *rows, ""]).encode()
    times = [f"{k * interval:.9E}" for k in range(len(volts))]
    rows = [f"{t},{value:.2f}" for t, value in zip(times, volts.tolist(), strict=True)]
    return "\n".join(["Second,Volt", *rows, ""]).encode()
