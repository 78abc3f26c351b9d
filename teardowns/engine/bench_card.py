"""What the capacitors of the unit at hand may hold, and how long until it is harmless."""
from collections.abc import Callable
from math import isnan, sqrt

import numpy as np

from .columns import Frame
from .requirements.discharge import HARMLESS, dissipation, stored_energy, time_until
from .requirements.mains_parts import DOUBLING_MAINS
from .requirements.touch_current import ABOVE_RATED, USUAL_MAINS

RESISTORS = (10000.0, 2200.0)      # Ω, of power types; the first that is quick enough
QUICK = 5.0                        # s: longer nobody holds a clip on for sure (common practice)
TIME_CONSTANTS = 5.0               # that it stays on: less than 1 % is left
HAZARD = 20.0                      # J, energy hazard of the withdrawn IEC 60950-1; from memory
USUAL = (4.7e-6, 10e-6, 22e-6, 33e-6, 47e-6, 68e-6, 100e-6)      # F, of bulk capacitors


def bench_card(found: Frame, row: int) -> dict:
    """Bench aid of one unit, no pass and no fail. F, V, J, Ω, s, W; None is not known.

    found : pooled evidence without defaults. Only resistors that were found shorten a time: what
    lies across the mains ahead of the rectifier empties no bulk capacitor, and a converter that
    has stopped may draw nothing. A plate that was not read counts as 240 V.
    """
    def value(code):
        return float(found[code].value[row])

    measured = value("bulk_capacitance")
    capacitance = value("bulk_capacitance_marked") if isnan(measured) else measured
    mains = value("rated_voltage_high")
    start = peak_of(USUAL_MAINS if isnan(mains) else mains)
    bus, because = _bus_voltage(value, mains, start)
    energy = float(stored_energy(capacitance, bus))
    return {
        "capacitance": _known(capacitance), "is_measured": not isnan(measured),
        "mains": _known(mains), "voltage": bus, "voltage_by": because,
        "energy": _known(energy), "is_energy_hazard": energy >= HAZARD, "harmless": HARMLESS,
        "path": _path(capacitance, value("bulk_discharge_resistance"), bus),
        "pins": _pins(value, start),
        "discharge": resistors(capacitance, bus),
    }


def unknown_card() -> dict:
    """The card of a unit of which nothing is known yet."""
    return bench_card(Frame(1, {}), 0)


def waiting_times() -> list[tuple[float, list[float]]]:
    """Usual bulk capacitors [F], each with the time by each resistor until it is harmless. [s]"""
    start = peak_of(USUAL_MAINS)
    return [(farad, [_time(farad, ohm, start) for ohm in RESISTORS]) for farad in USUAL]


def peak_of(mains: float) -> float:
    """Peak of the highest mains. [V] mains : highest rated, rms [V]"""
    return sqrt(2.0) * ABOVE_RATED * mains


def resistors(capacitance: float, voltage: float) -> list[dict]:
    """What each resistor does: until it is harmless, how long to keep it on, its first instant."""
    times = [_time(capacitance, ohm, voltage) for ohm in RESISTORS]
    chosen = next((at for at, time in enumerate(times) if time <= QUICK), len(RESISTORS) - 1)
    return [{"resistance": ohm, "seconds": _known(time),
             "keep": _known(max(TIME_CONSTANTS * ohm * capacitance, time)),
             "first_power": dissipation(voltage, ohm), "is_chosen": at == chosen}
            for at, (ohm, time) in enumerate(zip(RESISTORS, times, strict=True))]


def _bus_voltage(value: Callable[[str], float], mains: float, start: float) -> tuple[float, str]:
    """Highest voltage that the bulk capacitor may hold, and what says so."""
    ways = [(start, "mains")]
    if value("voltage_doubler") == 1.0:
        rated = USUAL_MAINS if isnan(mains) else mains
        ways.append((2.0 * peak_of(min(rated, DOUBLING_MAINS)), "doubler"))
    if value("power_factor_corrector") == 1.0:
        ways.append((value("bulk_capacitor_rating"), "corrector"))
    ways.append((value("bus_voltage"), "measured"))
    return max((way for way in ways if not isnan(way[0])), key=lambda way: way[0])


def _path(capacitance, resistance, voltage):
    """The resistor that empties the bulk capacitor, None where none is known."""
    if isnan(resistance):
        return None
    return {"resistance": resistance, "seconds": _known(_time(capacitance, resistance, voltage))}


def _pins(value: Callable[[str], float], voltage: float):
    """The capacitor at the pins with the resistor across it, None where none is known."""
    capacitance, resistance = value("x_capacitance"), value("discharge_resistance")
    if isnan(capacitance):
        return None
    return {"capacitance": capacitance, "resistance": _known(resistance),
            "seconds": _known(_time(capacitance, resistance, voltage))}


def _time(capacitance: float, resistance: float, start: float) -> float:
    return float(time_until(HARMLESS, np.float64(capacitance), resistance, start))


def _known(value: float) -> float | None:
    return None if isnan(value) else float(value)
