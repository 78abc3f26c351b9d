"""One settled switching cycle of a flyback converter, stepped through time.

The state is the flux linkage of the primary, and the current follows from it: a tanh curve for the
core, in series with its gap. So a core near saturation answers the same flux with far more current.
From the peak the flux is followed backwards through the on-time and forwards through the off-time;
where both meet within a period, the cycle repeats itself. No closed formula of a mode is used.
"""
from dataclasses import dataclass

import numpy as np

VACUUM = 4e-7 * np.pi       # H/m, permeability
STEPS = 64                  # a period, in each direction
KNEE = 0.99                 # of saturation: beyond, the core adds no more than vacuum
SWITCH_DROP = 1.0           # V, besides the resistances


@dataclass(frozen=True, slots=True)
class Core:
    """(n,) each; SI."""

    turns: np.ndarray           # of the primary
    area: np.ndarray            # m²
    length: np.ndarray          # m, of the path in ferrite
    gap: np.ndarray             # m, as the field sees it: without the fringe
    saturation: np.ndarray      # T
    permeability: np.ndarray    # initial, relative

    def current(self, linkage):
        """A of the primary at a flux linkage in Vs."""
        density = linkage / (self.turns * self.area)
        part = np.minimum(density / self.saturation, KNEE)
        # arctanh, written as the logarithm that numpy has a fast form of
        field = self.saturation / (2 * VACUUM * self.permeability) * np.log((1 + part) / (1 - part))
        field = field + np.maximum(density - KNEE * self.saturation, 0.0) / VACUUM
        return (field * self.length + density * self.gap / VACUUM) / self.turns

    def linkage(self, current):
        """Vs at a current: `current` turned round by halving."""
        scale = self.turns * self.area
        low, high = 0 * scale * current, scale * self.saturation + current * self.turns * scale * (
            VACUUM / (self.gap + self.length / self.permeability))
        for _ in range(40):
            middle = (low + high) / 2
            over = self.current(middle) > current
            low, high = np.where(over, low, middle), np.where(over, middle, high)
        return low

    @property
    def inductance(self):
        """H, at small signal."""
        path = self.gap + self.length / self.permeability
        return VACUUM * self.area * self.turns**2 / path

    def take(self, rows):
        return Core(*(getattr(self, name)[rows] for name in self.__slots__))


@dataclass(frozen=True, slots=True)
class Drive:
    """What the converter does with its core; (n,) each."""

    peak: np.ndarray            # A, at which the pulse ends
    delay: np.ndarray           # s, until it has ended
    period: np.ndarray          # s
    maximum_duty: np.ndarray
    reflected: np.ndarray       # V, output and rectifier seen through the turns
    resistance: np.ndarray      # Ω, primary side: winding, switch, sense resistor

    def take(self, rows):
        return Drive(*(getattr(self, name)[rows] for name in self.__slots__))


@dataclass(frozen=True, slots=True)
class Cycle:
    """(n,) each."""

    power: np.ndarray           # W, drawn from the bus
    on_time: np.ndarray         # s
    peak: np.ndarray            # Vs
    lowest: np.ndarray          # Vs, at the start of the on-time; 0: the core is emptied
    primary_rms: np.ndarray     # A
    secondary_form: np.ndarray  # rms over mean of the secondary current


def largest_cycle(bus, core, drive):
    """The settled cycle of most power at a bus voltage: it ends at the current limit, or, where
    the duty that this takes is not to be had, it fills an empty core in the longest on-time."""
    peak = core.linkage(drive.peak) + bus * drive.delay
    cycle = cycle_from_peak(bus, core, drive, peak)
    short = np.flatnonzero(cycle.on_time > drive.maximum_duty * drive.period)
    if short.size:
        few, longest = core.take(short), drive.take(short)
        filled = (bus[short] - SWITCH_DROP) * longest.maximum_duty * longest.period
        again = cycle_from_peak(bus[short], few, longest, np.minimum(peak[short], filled))
        for name in Cycle.__slots__:
            getattr(cycle, name)[short] = getattr(again, name)
    return cycle


def cycle_from_peak(bus, core, drive, peak):
    """Cycle whose flux linkage peaks at `peak` [Vs]."""
    step = drive.period / STEPS
    rise = _followed(core, peak, step, bus - SWITCH_DROP, -drive.resistance)
    # what the output side loses lies in the reflected voltage already
    fall = _followed(core, peak, step, drive.reflected, 0.0)
    apart = rise.linkage - fall.linkage[::-1]               # (STEPS + 1, n), falls with the on-time
    met = apart <= 1e-9 * peak
    k = np.maximum(met.argmax(axis=0), 1)
    column = np.arange(peak.size)
    before, after = apart[k - 1, column], apart[k, column]
    part = np.clip(before / np.maximum(before - after, 1e-30), 0.0, 1.0)
    on, off = k - 1 + part, STEPS - (k - 1 + part)
    charge, square = rise.charge_at(on), rise.square_at(on)
    back = fall.charge_at(off)
    return Cycle(
        power=bus * charge / drive.period, on_time=_at(rise.time, on), peak=peak,
        lowest=_at(rise.linkage, on), primary_rms=np.sqrt(square / drive.period),
        secondary_form=np.sqrt(fall.square_at(off) * drive.period) / np.maximum(back, 1e-30))


@dataclass(frozen=True, slots=True)
class _Path:
    """(STEPS + 1, n) from the peak on: flux linkage, time with flux, ∫ i dt, ∫ i² dt."""

    linkage: np.ndarray
    time: np.ndarray
    charge: np.ndarray
    square: np.ndarray

    def charge_at(self, place):
        return _at(self.charge, place)

    def square_at(self, place):
        return _at(self.square, place)


def _followed(core, peak, step, voltage, resistance):
    """Flux linkage falling from the peak against a voltage; Heun's rule, never below empty."""
    linkage, time, charge, square = (np.zeros((STEPS + 1, peak.size)) for _ in range(4))
    linkage[0] = x = peak
    least = 0.05 * voltage          # below, the resistance keeps that peak from being reached
    current = core.current(x)
    for k in range(1, STEPS + 1):
        slope = np.maximum(voltage + resistance * current, least)
        # where the core runs empty within the step, the current has flowed for that part of it
        spent = np.minimum(x / (step * slope), 1.0) * step
        y = np.maximum(x - step * slope, 0.0)
        after = core.current(y)
        if np.any(resistance):
            slope = (slope + np.maximum(voltage + resistance * after, least)) / 2
            y = np.maximum(x - step * slope, 0.0)
            after = core.current(y)
        time[k] = time[k - 1] + spent
        charge[k] = charge[k - 1] + spent * (current + after) / 2
        square[k] = square[k - 1] + spent * (current**2 + current * after + after**2) / 3
        linkage[k], x, current = y, y, after
    return _Path(linkage, time, charge, square)


def _at(table, place):
    """Linear reading of a (steps, n) table at a fractional row a column."""
    k = np.minimum(place.astype(int), table.shape[0] - 2)
    part, column = place - k, np.arange(place.size)
    return table[k, column] * (1 - part) + table[k + 1, column] * part
