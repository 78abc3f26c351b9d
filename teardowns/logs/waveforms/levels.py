"""What the levels of a capture show: ratios, never the scale of a probe alone."""
from __future__ import annotations

import numpy as np

from teardowns.logs.extracted import Unread
from teardowns.logs.waveforms.conduction import BOUNDARY, CONTINUOUS
from teardowns.logs.waveforms.energy import energy_per_cycle
from teardowns.logs.waveforms.labels import label
from teardowns.logs.waveforms.rhythm import TIME_BASE
from teardowns.logs.waveforms.ring import inductance_capacitance

BALANCE = 0.10            # relative: volt-seconds of on-time and demagnetisation agree so well
ON_DROP = 0.01            # of the bus voltage across the switch that conducts, one standard
OTHER_DROP = 0.03         # relative, of a ratio by volt-seconds: drops and commutation
SHORT, HALF_WAVE = 0.05, 0.01     # s: less meets the bus anywhere in its ripple
METER = 0.01              # of a bus voltage as stated, where its meter is not known
INDUCTANCE = 0.05         # of an inductance whose uncertainty is not stated
CUT = ("The top of the trace is cut off: choose more volts per division, so that the plateau after "
       "the turn-off lies within the screen, and capture again.")
_NO_PLATEAU = ("The plateau is shorter than the ringing of the leakage inductance: capture at a "
               "higher load.")
_NO_BUS = ("State the voltage across the bulk capacitor, measured with a meter: a probe's factor "
           "and offset are not trusted, only ratios of the capture are.")


def read_levels(reading):
    """Every result of the levels, the ring and the energy."""
    if reading.is_cut:
        return [Unread(code, label(code), CUT) for code in (
            "plateau", "bus_level", "reflected_share", "reflected_voltage",
            "demagnetisation_time", "ring_frequency", "node_capacitance", *_ENERGY)]
    share = _share(reading)
    return [*_plateau(reading), *_bus_level(reading), *_reflected(reading, share),
            *_demagnetisation(reading), *_ring(reading), *_energy(reading)]


def _after(reading):
    _, off, on = reading.cycle()
    ends = reading.conduction.demagnetised
    return off, on if ends is None else off + ends, on


def _plateau(reading):
    found = reading.conduction
    if found.plateau is None:
        yield Unread("plateau", label("plateau"), _NO_PLATEAU)
        return
    level = found.plateau - reading.pulses.on_level
    yield reading.number("plateau", level, (("noise and sag", found.plateau_u),), [
        f"Median between the leakage ringing and the end of the plateau, above the on level: "
        f"{level:.4g} V on the capture's own scale."], _after(reading)[:2])


def _bus_level(reading):
    ring = reading.conduction.ring
    if ring is None:
        yield Unread("bus_level", label("bus_level"), reading.conduction.why_no_ring)
        return
    level = ring.centre - reading.pulses.on_level
    yield reading.number("bus_level", level, (("fit of the ring", ring.centre_u), (
        "voltage across the switch that conducts", ON_DROP * level)), [
        f"Middle of the ring, above the on level: {level:.4g} V on the capture's own scale.",
        *_scale(reading, level)], _after(reading)[1:])


def _scale(reading, level):
    stated = reading.conditions.bus_voltage
    if stated and not reading.trace.is_winding and abs(level / stated - 1) > BALANCE:
        yield (f"Stated are {stated:.4g} V: the capture's scale is off by a factor of "
               f"{level / stated:.3g}. Ratios do not mind.")


def _share(reading):
    """Reflected over bus voltage, its relative uncertainty and how it was found; or None."""
    found, on_level = reading.conduction, reading.pulses.on_level
    if found.ring and found.plateau is not None:
        level = found.ring.centre - on_level
        above = found.plateau - found.ring.centre
        share_u = np.hypot(np.hypot(found.ring.centre_u, found.plateau_u) * (1 / above + 1 / level),
                           ON_DROP)
        return above / level, float(share_u), (
            f"Plateau above the middle of the ring, over that above the on level: {above:.4g} V / "
            f"{level:.4g} V = {above / level:.4f}.")
    falls = _falling(reading)
    if falls is None:
        return None
    share = reading.on_time / falls
    return share, OTHER_DROP + reading.on_time_u / reading.on_time, (
        f"Volt-seconds of on-time and of the time the flux falls are equal: "
        f"{reading.on_time * 1e6:.4g} µs / {falls * 1e6:.4g} µs = {share:.4f}.")


def _falling(reading):
    """s for which the flux falls in each period."""
    found = reading.conduction
    if reading.rhythm.is_burst and found.mode == CONTINUOUS:
        return None
    return reading.profile.length if found.mode == CONTINUOUS else found.demagnetised


def _reflected(reading, share):
    if share is None:
        yield from (Unread(code, label(code), _NO_PLATEAU)
                    for code in ("reflected_share", "reflected_voltage"))
        return
    value, relative, how = share
    miss = _imbalance(reading, value)
    working = [how, *_balance(miss)]
    yield reading.number("reflected_share", value, (("ratio", value * relative),), working,
                         _after(reading)[::2])
    bus = reading.conditions.bus_voltage
    if bus is None or abs(miss) > BALANCE:
        yield Unread("reflected_voltage", label("reflected_voltage"),
                     _NO_BUS if bus is None else _OUT_OF_BALANCE.format(100 * abs(miss)))
        return
    yield reading.number("reflected_voltage", value * bus, (
        ("ratio", value * bus * relative), ("bus voltage", value * _bus_u(reading))), [
        *working, f"Times the stated {bus:.4g} V: {value * bus:.4g} V."], _after(reading)[::2])


_OUT_OF_BALANCE = ("Volt-seconds of on-time and demagnetisation differ by {:.0f} %, and must be "
                   "equal: check the probe's compensation and that the whole trace lies within "
                   "the screen.")


def _imbalance(reading, share):
    """ln of the volt-seconds put in over those taken out, by the levels."""
    falls = _falling(reading)
    return 0.0 if falls is None else float(np.log(reading.on_time / (share * falls)))


def _balance(miss):
    if abs(miss) > BALANCE:
        yield _OUT_OF_BALANCE.format(100 * abs(miss))
    elif miss:
        yield f"Volt-seconds of on-time and demagnetisation agree within {100 * abs(miss):.1f} %."


def _bus_u(reading):
    """Of a bus voltage as stated; in a short capture the bus may be anywhere in its ripple."""
    long = reading.trace.step * len(reading.trace.values) >= HALF_WAVE
    return reading.conditions.bus_voltage * float(np.hypot(METER, 0.0 if long else SHORT))


def _demagnetisation(reading):
    found, code = reading.conduction, "demagnetisation_time"
    if found.demagnetised is None:
        yield Unread(code, label(code), "The plateau lasts until the next turn-on: capture at a "
                     "lower load." if found.mode == CONTINUOUS else _NO_PLATEAU)
        return
    yield reading.number(code, found.demagnetised, (("end of the plateau", found.demagnetised_u),),
                         [f"From the turn-off to where the node leaves its plateau: "
                          f"{found.demagnetised * 1e6:.4g} µs."], _after(reading)[:2])


def _ring(reading):
    ring = reading.conduction.ring
    if ring is None:
        yield from (Unread(code, label(code), reading.conduction.why_no_ring)
                    for code in ("ring_frequency", "node_capacitance"))
        return
    product = inductance_capacitance(ring.frequency)
    seen = (f"Decaying ring fitted over {ring.periods:.1f} periods: "
            f"{ring.frequency / 1e3:.4g} kHz; L·C = {product:.4g} s².")
    spread = ring.frequency_u / ring.frequency
    yield reading.number("ring_frequency", ring.frequency, (
        ("fit", ring.frequency_u), ("time base, 0.01 % assumed", TIME_BASE * ring.frequency)),
        [seen], _after(reading)[1:])
    inductance = reading.conditions.primary_inductance
    if inductance is None:
        yield Unread("node_capacitance", label("node_capacitance"), "State the primary inductance, "
                     "measured with the other windings open.")
        return
    value = product / inductance
    yield reading.number("node_capacitance", value, (
        ("ring", 2 * value * spread), ("inductance", value * _inductance_u(reading) / inductance)),
        [seen, f"Over {inductance * 1e3:.4g} mH: {value * 1e12:.4g} pF."], _after(reading)[1:])


def _inductance_u(reading):
    stated, inductance = reading.conditions.inductance_u, reading.conditions.primary_inductance
    return INDUCTANCE * inductance if stated is None else stated


_ENERGY = ("energy_per_cycle", "bus_power")


def _energy(reading):
    if why := _no_energy(reading):
        yield from (Unread(code, label(code), why) for code in _ENERGY)
        return
    bus, inductance = reading.conditions.bus_voltage, reading.conditions.primary_inductance
    energy = energy_per_cycle(bus, reading.on_time, inductance)
    shares = (("bus voltage", 2 * _bus_u(reading) / bus),
              ("on-time", 2 * reading.on_time_u / reading.on_time),
              ("inductance", _inductance_u(reading) / inductance))
    working = [f"E = (V·t)²/(2·L) = ({bus:.4g} V × {reading.on_time * 1e6:.4g} µs)² / (2 × "
               f"{inductance * 1e3:.4g} mH) = {energy * 1e6:.4g} µJ."]
    span = reading.cycle()[:2]
    yield reading.number("energy_per_cycle", energy, [(name, energy * u) for name, u in shares],
                         working, span)
    if reading.rhythm.is_burst:
        yield Unread("bus_power", label("bus_power"), "Pulses come in bursts, whose mean this "
                     "does not show: capture at full load.")
        return
    power = energy * reading.frequency
    yield reading.number("bus_power", power, [
        *((name, power * u) for name, u in shares), ("frequency", energy * reading.frequency_u)], [
        *working, f"Times {reading.frequency / 1e3:.4g} kHz: {power:.4g} W from the bus while it "
        "was captured."], span)


def _no_energy(reading):
    if reading.conduction.mode == CONTINUOUS:
        return ("In continuous conduction a voltage does not show the current that remains: "
                "capture at a lower load, or the current itself.")
    if reading.conditions.bus_voltage is None:
        return _NO_BUS
    if reading.conditions.primary_inductance is None:
        return "State the primary inductance, measured with the other windings open."
    share = _share(reading)
    if share and abs(miss := _imbalance(reading, share[0])) > BALANCE and (
            reading.conduction.mode != BOUNDARY):
        return _OUT_OF_BALANCE.format(100 * abs(miss))
    return ""
