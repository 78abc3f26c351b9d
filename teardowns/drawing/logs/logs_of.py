"""The logs that a document's measurements would have come from, so that every number has one."""
from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from teardowns.drawing.logs.bench_runs import BEHAVIOURS, long_run, staircase, warming
from teardowns.drawing.logs.dialects import DIALECTS, Track, scope_text
from teardowns.drawing.logs.switch_capture import switch_voltage
from teardowns.logs.conditions import Cable, Conditions

Document = Mapping[str, Any]
HOLD = 660.0              # s: a little more than the ten minutes that count as held
LONG = 1800.0             # s from which a run of its own is logged
REFLECTED = 85.0          # V
FOUR_WIRE = Cable(0.0, 0.0)
LOADS = {"full": 1.0, "third": 1 / 3}


@dataclass(frozen=True, slots=True)
class DrawnLog:
    key: str
    kind: str                 # of RecordingKind
    name: str                 # of the file
    data: bytes
    port: str                 # key, "" for none
    roles: tuple[tuple[str, str], ...]        # (role, place) of each column
    conditions: Conditions
    caption: str
    shows: tuple[str, ...] = ()               # keys of the measurements that it stands behind


def logs_of(document: Document) -> list[DrawnLog]:
    """document : a full one, of `read_document`"""
    seed = int(hashlib.sha256(document["unit"]["title"].encode()).hexdigest()[:8], 16)
    rng = np.random.default_rng(seed)
    makers = (_staircases, _long_runs, _warmings, _captures)
    return [log for make in makers for log in make(document, seed, rng)]


def _rows(document, code) -> list[Mapping[str, Any]]:
    return [row for row in document["measurements"]
            if row["quantity"] == code and row["state"] == "recorded"]


def _value(document, code, default=None):
    return next((row["value"] for row in _rows(document, code)), default)


def _text(document, seed, time, tracks):
    dialect = DIALECTS[seed % len(DIALECTS)]
    return dialect.written(time, tracks), _named([*tracks])


def _named(tracks: list[Track]):
    return (("time", ""), *((track.role, track.place) for track in tracks))


def _stated(row, **more):
    return Conditions(mains_voltage=row.get("mains_voltage"),
                      mains_frequency=row.get("mains_frequency"), ambient=row.get("ambient"),
                      **more)


def _port(document, row):
    ports = [port["key"] for port in document["ports"]]
    return row.get("port", ports[0] if len(ports) == 1 else "")


def _staircases(document, seed, rng) -> Iterator[DrawnLog]:
    longest = _longest(document)
    lost = {(row.get("mains_voltage"), row.get("port", "")): row
            for row in _rows(document, "failed_power")}
    full = _value(document, "efficiency", 0.8)
    average = _value(document, "average_efficiency", full)
    for number, row in enumerate(_rows(document, "sustained_power")):
        nominal = row.get("output_voltage")
        if nominal is None:
            continue
        beyond = lost.get((row.get("mains_voltage"), row.get("port", "")))
        if beyond is not None and beyond.get("output_voltage") != nominal:
            beyond = None
        below = min((4 * average - full) / 3, 0.99)
        resistance = _resistance(nominal, row["value"])
        time, tracks = staircase(nominal, row["value"], HOLD,
                                 None if beyond is None else float(beyond["value"]),
                                 BEHAVIOURS[(seed + number) % len(BEHAVIOURS)], resistance,
                                 (below, below, below, full), rng)
        data, roles = _text(document, seed + number, time, tracks)
        mains = row.get("mains_voltage")
        yield DrawnLog(
            f"sweep-{number + 1}", "load_sweep", f"sweep-{number + 1}.csv", data,
            _port(document, row), roles, _stated(
                row, set_voltage=nominal, cable=FOUR_WIRE, rated_current=row["value"] / nominal),
            f"{nominal:g} V, up in steps"
            + (" until it is lost" if beyond else "") + (f", {mains:g} V mains" if mains else ""),
            tuple(one["key"] for one in (row if row is not longest else None, beyond) if one))


def _resistance(nominal, power):
    """A drop of 1.5 % of the voltage at the power that held."""
    return 0.015 * nominal ** 2 / power


def _longest(document):
    """The row of a load that was held for long enough to have a run of its own."""
    rows = [row for row in _rows(document, "sustained_power")
            if row.get("duration", 0) >= LONG and row.get("output_voltage")]
    return max(rows, key=lambda row: row["duration"], default=None)


def _long_runs(document, seed, rng) -> Iterator[DrawnLog]:
    row = _longest(document)
    if row is None:
        return
    nominal = row["output_voltage"]
    air = _value(document, "ambient_temperature", 23.0)
    time, tracks = long_run(nominal, row["value"], row["duration"],
                            _resistance(nominal, row["value"]),
                            _value(document, "case_temperature"), air, rng)
    data, roles = _text(document, seed + 3, time, tracks)
    yield DrawnLog("run-1", "endurance", "run-1.csv", data, _port(document, row), roles,
                   _stated(row, set_voltage=nominal, cable=FOUR_WIRE),
                   f"{row['value']:g} W for {row['duration'] / 60:g} min", (row["key"],))


def _warmings(document, seed, rng) -> Iterator[DrawnLog]:
    places = {row["quantity"]: row["value"] for row in document["measurements"]
              if row["state"] == "recorded" and row["quantity"].endswith("_temperature")
              and row["quantity"] not in ("ambient_temperature", "board_temperature")}
    air = _value(document, "ambient_temperature")
    if not places or air is None or min(places.values()) <= air:
        return
    time, tracks = warming(places, air, 150.0, rng)
    data, roles = _text(document, seed + 1, time, tracks)
    yield DrawnLog("warming-1", "thermal", "warming-1.csv", data, "", roles,
                   Conditions(ambient=air), "Warming up under load",
                   tuple(row["key"] for code in places for row in _rows(document, code)))


def _captures(document, seed, rng) -> Iterator[DrawnLog]:
    frequency, inductance = (_value(document, code) for code in (
        "switching_frequency", "primary_inductance"))
    held = [row["value"] for row in _rows(document, "sustained_power")
            if row.get("mains_voltage", 230) > 200]
    if not (frequency and inductance and held):
        return
    bus = _value(document, "bus_voltage", 318.0)
    efficiency = _value(document, "efficiency", 0.8)
    u = next((row.get("uncertainty") for row in _rows(document, "primary_inductance")), None)
    for number, (name, share) in enumerate(LOADS.items()):
        load = share * max(held)
        capture = switch_voltage(frequency, load / efficiency, inductance, bus, REFLECTED, rng)
        if capture is None:
            continue
        interval, volts = capture
        has_times = (seed + number) % 2 == 0
        roles = (("time", ""),) * has_times + (("switch_voltage", ""),)
        yield DrawnLog(
            f"switch-{name}", "waveform", f"switch-{name}.csv",
            scope_text(interval, volts, seed + number), "", roles,
            Conditions(mains_voltage=230.0, mains_frequency=50.0, load=load, rated_power=max(held),
                       bus_voltage=bus,
                       primary_inductance=inductance, inductance_u=u),
            f"At the primary switch, {load:.3g} W out",
            tuple(row["key"] for row in _rows(document, "switching_frequency")) * (share == 1.0))
