"""The source power rules of USB Power Delivery: what a source of a given power has to offer.

A rule that a list departs from is told as a departure; what is merely unusual, or known from
memory only, as a note. A list that departs may still be of a source that gives all that it offers.
"""
from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

import numpy as np

from .offers import MOST_CURRENT, described, design_power, power_of, programmed_voltage
from .power_objects import (
    EPR_CAPABLE,
    Adjustable,
    Battery,
    CapabilityList,
    Fixed,
    PowerObjectError,
    Programmable,
    Variable,
    decode,
    encode,
)

LEVELS = (5.0, 9.0, 15.0, 20.0, 28.0, 36.0, 48.0)               # V
ABOVE = (0.0, 15.0, 27.0, 45.0, 100.0, 140.0, 180.0)            # W, from which each is mandatory
MOST = (3.0, 3.0, 3.0, 5.0, 5.0, 5.0, 5.0)                      # A, that can be asked of it
STANDARD = 20.0         # V; higher ones belong to the extended power range
PLAIN_CABLE = 3.0       # A, through a cable without a mark for 5 A
STEP = 100              # currents are named in hundredths of an ampere
ROUNDING = 0.02         # of the power; common practice, no source
LOWEST_PROGRAMMED = (3.0, 3.3)                                  # V; 3.0 V in early revision 3.0
HIGHEST_PROGRAMMED = (5.9, 11.0, 16.0, 21.0)                    # V


def mandatory_current(power, voltage):
    r"""Current that a source of a given power has to offer at one of the normative voltages.

    .. math:: I = \min(P / U, I_{max}) \quad\text{for } P > P_U

    with I_max 3 A up to 15 V and 5 A above, and P_U 0, 15, 27, 45, 100, 140 and 180 W for 5, 9,
    15, 20, 28, 36 and 48 V.

    Parameters
    ----------
    power : (n,) float
        For which the source is designed, to 240 W. [W]
    voltage : (n,) float
        One of the normative ones. [V]

    Returns
    -------
    (n,) float
        0 where the voltage is not mandatory; NaN where an input is NaN. [A]

    Errors
    ------
    None; the currents are named in steps of 10 mA, rounded down. Above 60 W the 5 A at 20 V are
    offered through a cable marked for 5 A only. The rows above 100 W are from memory.

    Examples
    --------
    >>> mandatory_current(np.array([18.0, 65.0]), np.array([9.0, 20.0])).tolist()
    [2.0, 3.25]

    References
    ----------
    .. [1] USB Power Delivery Specification, revision 3.x, source power rules, in two public
       renderings of the table; note on the TPS65994 by Texas Instruments.
    """
    power, voltage = np.asarray(power, float), np.asarray(voltage, float)
    current = np.zeros(np.broadcast_shapes(power.shape, voltage.shape))
    for level, above, most in zip(LEVELS, ABOVE, MOST, strict=True):
        asked = np.minimum(power / level, most)
        current = np.where((voltage == level) & (power > above), asked, current)
    return np.where(np.isnan(power) | np.isnan(voltage), np.nan, current)


def mandatory_ratings(power: float) -> tuple[tuple[float, float], ...]:
    """(V, A) that a source of this power has to offer, in the steps of the words.

    The row of the table goes by whole watts, for a source of 27 W may name 12 V 2.26 A.
    """
    row = np.round(power)
    found = mandatory_current(np.full(len(LEVELS), row), np.array(LEVELS))
    asked = np.minimum(found, power / np.array(LEVELS))
    stepped = np.floor(asked * STEP + 1e-6) / STEP
    return tuple((level, current) for level, current in zip(LEVELS, stepped.tolist(), strict=True)
                 if current > 0)


@dataclass(frozen=True, slots=True)
class Finding:
    sentence: str
    departs: bool = True        # False: worth knowing, and allowed


def examine_list(capabilities: CapabilityList) -> tuple[Finding, ...]:
    """Where a list departs from the rules for its own power, then what is worth knowing of it."""
    if not capabilities.objects:
        return ()
    found = [finding for check in CHECKS for finding in check(capabilities)]
    return tuple(sorted(found, key=lambda finding: not finding.departs))


def _first_object(capabilities) -> Iterator[Finding]:
    first = capabilities.objects[0]
    if isinstance(first, Fixed) and first.voltage == 5:
        return
    yield Finding(f"The first object is {described(first)}; it has to be a fixed supply of 5 V."
                  + _turned(first))


def _turned(first):
    """What the word would be, had a log written its bytes in the order of the wire."""
    word = int.from_bytes(encode(first).to_bytes(4, "big"), "little")
    if not _reads_5_volts(word):
        return ""
    return f" With its bytes turned round, {word:08X}, it is one: was the log in wire order?"


def _reads_5_volts(word):
    try:
        item = decode(word, first=True)
    except PowerObjectError:
        return False
    return isinstance(item, Fixed) and item.voltage == 5


def _order(capabilities) -> Iterator[Finding]:
    for extended in (False, True):
        items = [item for item in capabilities.objects if _is_extended(item) == extended]
        for before, item in zip(items, items[1:], strict=False):
            if _place(item) < _place(before):
                yield Finding(
                    f"{described(item)} stands behind {described(before)}: fixed supplies come "
                    "first, then batteries, variable and adjustable ones, each kind from the "
                    "lowest voltage to the highest.")


def _is_extended(item):
    return isinstance(item, Adjustable) or isinstance(item, Fixed) and item.voltage > STANDARD


def _place(item):
    match item:
        case Fixed():
            return 0, item.voltage
        case Battery() | Variable():
            return 1 if isinstance(item, Battery) else 2, item.low
        case Programmable():
            return 3, item.high
    return 3, inf       # behind all programmable ones


def _mandatory(capabilities) -> Iterator[Finding]:
    power = design_power(capabilities.objects)
    offered = dict(sorted((item.voltage, item.current) for item in capabilities.of(Fixed)))
    for voltage, current in mandatory_ratings(power) if power > 0 else ():
        asked = described(Fixed(voltage, current))
        source = f"a source of {_watts(power)}"
        if voltage not in offered:
            yield Finding(f"{asked} is missing, which {source} has to offer.")
        elif offered[voltage] < current:
            yield Finding(f"{described(Fixed(voltage, offered[voltage]))} is offered where "
                          f"{source} has to offer {asked}.")


def _power(capabilities) -> Iterator[Finding]:
    power = design_power(capabilities.objects)
    for item in capabilities.objects:
        limited = isinstance(item, Programmable) and item.power_limited
        if not limited and power_of(item) > (1 + ROUNDING) * power:
            yield Finding(f"{described(item)} stands for {_watts(power_of(item))}, more than the "
                          f"{_watts(power)} of the fixed supplies.")


def _watts(power):
    return f"{round(power)} W"


def _currents(capabilities) -> Iterator[Finding]:
    most = max(map(_current_of, capabilities.objects))
    if most > MOST_CURRENT:
        yield Finding("More than 5 A is offered, above what a Type-C connector carries.")
    elif most > PLAIN_CABLE:
        yield Finding("Currents above 3 A are offered through a cable marked for 5 A only.",
                      departs=False)


def _current_of(item):
    return max(getattr(item, name, 0.0) for name in ("current", "current_to_15", "current_to_20"))


def _ranges(capabilities) -> Iterator[Finding]:
    for item in capabilities.objects:
        if getattr(item, "low", 0) > getattr(item, "high", 0):
            yield Finding(f"{described(item)} has its lowest voltage above its highest.")
    for item in capabilities.of(Programmable):
        if item.low not in LOWEST_PROGRAMMED or item.high not in HIGHEST_PROGRAMMED:
            yield Finding(f"{described(item)} is none of the usual programmable ranges (3.3 V to "
                          f"5.9, 11, 16 or 21 V); its power counts at "
                          f"{programmed_voltage(item):g} V.", departs=False)


def _bits(capabilities) -> Iterator[Finding]:
    for item in capabilities.objects:
        if item.reserved:
            yield Finding(f"{described(item)} ({encode(item):08X}) has bits set that are reserved "
                          "or belong to the first object only.", departs=False)


def _extended(capabilities) -> Iterator[Finding]:
    if not any(map(_is_extended, capabilities.objects)):
        return
    if EPR_CAPABLE not in getattr(capabilities.objects[0], "flags", ()):
        yield Finding("Voltages above 20 V are offered, and the first object does not say that "
                      "the source is capable of the extended range.", departs=False)
    if not capabilities.of(Adjustable):
        yield Finding("Voltages above 20 V are offered without the adjustable supply that belongs "
                      "to them.", departs=False)


CHECKS = (_first_object, _order, _mandatory, _power, _currents, _ranges, _bits, _extended)
