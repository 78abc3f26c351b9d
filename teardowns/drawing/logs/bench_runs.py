"""What a load, a meter and a thermometer would have logged: staircases, long runs, warming up."""
from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from teardowns.drawing.logs.dialects import Track

STEP, FINE, REST = 60.0, 4.0, 70.0         # s: a step of the staircase, of the ramp, without load
EVERY = 1.0                                # s between two rows
NOISE_V, NOISE_I = 0.002, 0.001            # V and A, rms
BEHAVIOURS = ("hiccup", "latch_off", "foldback", "constant_current")


def staircase(nominal: float, held: float, hold: float, lost: float | None, behaviour: str,
              resistance: float, efficiencies: Sequence[float], rng: np.random.Generator
              ) -> tuple[np.ndarray, list[Track]]:
    """Rest, four steps up to the power that held, that one for long, then up until it is lost.

    nominal [V]; held, lost [W], None = the run ends without loss; hold [s]; resistance [Ω];
    efficiencies : at the four steps
    """
    full = _amperes(held, nominal, resistance)
    levels = [(0.0, REST)] + [(full * part, STEP) for part in (0.25, 0.5, 0.75)] + [(full, hold)]
    if lost is not None:
        limit = lost / nominal
        levels += [(at, FINE) for at in np.linspace(full * 1.02, limit * 0.985, 8)]
        levels += [(limit, 40.0)]
    levels += [(0.0, REST)]
    asked = np.concatenate([np.full(round(length / EVERY), at) for at, length in levels])
    time = EVERY * np.arange(len(asked))
    volts, amperes = nominal - resistance * asked, asked.copy()
    if lost is not None:
        beyond = asked >= limit * 0.999
        volts[beyond], amperes[beyond] = _beyond(behaviour, nominal, limit, int(beyond.sum()))
        if behaviour == "latch_off":
            after = time > time[beyond][-1]
            volts[after] = amperes[after] = 0.02
    volts = np.fmax(volts + rng.normal(0, NOISE_V, len(time)), 0.0)
    amperes = np.where(amperes > 0, np.fmax(amperes + rng.normal(0, NOISE_I, len(time)), 0.0), 0.0)
    efficiency = np.interp(asked / full, (0.25, 0.5, 0.75, 1.0), efficiencies)
    drawn = volts * amperes / efficiency + 0.05
    return time, [Track("output_voltage", volts, 3), Track("output_current", amperes, 3),
                  Track("set_current", asked, 3), Track("input_power", drawn, 2)]


def _amperes(power, nominal, resistance):
    """The current at which (nominal − R·I)·I is the power."""
    if resistance <= 0:
        return power / nominal
    return (nominal - np.sqrt(nominal ** 2 - 4 * resistance * power)) / (2 * resistance)


def _beyond(behaviour, nominal, limit, rows):
    row = np.arange(rows)
    if behaviour == "hiccup":
        tries = row % 8 == 7
        return np.where(tries, 0.7 * nominal, 0.05 * nominal), np.where(tries, 0.5 * limit, 0.01)
    if behaviour == "latch_off":
        return np.full(rows, 0.02), np.full(rows, 0.01)
    if behaviour == "foldback":
        return np.full(rows, 0.4 * nominal), np.full(rows, 0.5 * limit)
    return np.full(rows, 0.55 * nominal), np.full(rows, limit)


def long_run(nominal: float, held: float, duration: float, resistance: float, case: float | None,
             air: float, rng: np.random.Generator) -> tuple[np.ndarray, list[Track]]:
    """One load for the whole time, the case beside it where its temperature is on record."""
    time = np.arange(0.0, duration + 1, 10.0)
    current = _amperes(held, nominal, resistance)
    volts = nominal - resistance * current + rng.normal(0, NOISE_V, len(time))
    amperes = current + rng.normal(0, NOISE_I, len(time))
    tracks = [Track("output_voltage", volts, 3), Track("output_current", amperes, 3)]
    if case is not None:
        tracks += [Track("temperature", _warming(time, air, case, 700.0, rng), 1,
                         "case_temperature"),
                   Track("ambient_temperature", air + rng.normal(0, 0.1, len(time)), 1)]
    return time, tracks


def warming(places: dict[str, float], air: float, minutes: float, rng: np.random.Generator
            ) -> tuple[np.ndarray, list[Track]]:
    """Every place on its way to its own temperature, each with its own time constant."""
    time = np.arange(0.0, 60 * minutes, 10.0)
    tracks = [Track("temperature", _warming(time, air, final, 500.0 + 90 * number, rng), 1, place)
              for number, (place, final) in enumerate(places.items())]
    return time, [*tracks, Track("ambient_temperature", air + rng.normal(0, 0.1, len(time)), 1)]


def _warming(time, air, final, constant, rng):
    return final - (final - air) * np.exp(-time / constant) + rng.normal(0, 0.1, len(time))
