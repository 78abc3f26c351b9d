"""What the power data objects of a list offer: in words, at a voltage, and at most."""
from collections.abc import Iterable
from math import nan

from teardowns.engine.wording import plain, rounded

from .power_objects import (
    Adjustable,
    AdjustableStandard,
    Battery,
    Fixed,
    PowerObject,
    Programmable,
    Variable,
)

AROUND = 0.05            # a fixed supply is within 5 % of its voltage; from memory
MOST_CURRENT = 5.0       # A, through a Type-C connector
PROGRAMMED = (5.0, 9.0, 15.0, 20.0)     # V, by which the power of a programmable supply counts
DIGITS = 4               # of 13.25 V


def described(item: PowerObject) -> str:
    """`5 V 3 A`, `3.3 to 21 V 3.25 A, power-limited`, `15 to 28 V 140 W, adjustable`."""
    match item:
        case Fixed():
            return f"{_volts(item.voltage)} {_amperes(item.current)}"
        case Variable():
            return f"{_span(item)} {_amperes(item.current)}, variable"
        case Battery():
            return f"{_span(item)} {plain(item.power, 'W', DIGITS)}, battery"
        case Programmable():
            limited = ", power-limited" if item.power_limited else ""
            return f"{_span(item)} {_amperes(item.current)}{limited}"
        case Adjustable():
            return f"{_span(item)} {plain(item.power, 'W', DIGITS)}, adjustable"
    above = f", {_amperes(item.current_to_20)} to {_volts(20)}" if item.current_to_20 else ""
    return f"9 to {_volts(15)} {_amperes(item.current_to_15)}{above}, adjustable"


def _span(item):
    return f"{rounded(item.low, DIGITS)} to {_volts(item.high)}"


def _volts(value):
    return plain(value, "V", DIGITS)


def _amperes(value):
    return plain(value, "A", DIGITS)


def power_of(item: PowerObject) -> float:
    """The most power that an object stands for. [W]"""
    match item:
        case Fixed():
            return item.voltage * item.current
        case Variable():
            return item.high * item.current
        case Programmable():
            return programmed_voltage(item) * item.current
        case AdjustableStandard():
            return max(15 * item.current_to_15, 20 * item.current_to_20)
    return item.power


def programmed_voltage(item: Programmable) -> float:
    """A range to 11 V counts as 9 V: its upper end is a reserve for the loss in the cable. [V]"""
    return max((voltage for voltage in PROGRAMMED if voltage <= item.high), default=item.high)


def design_power(objects):
    r"""Power for which the source of a list is designed: its PDP.

    .. math:: P = \max_i U_i I_i

    Parameters
    ----------
    objects : iterable of PowerObject
        A list; only its fixed supplies count. [V, A]

    Returns
    -------
    float
        The largest product; NaN without a fixed supply. [W]

    Errors
    ------
    Formula: exact for a source that follows the source power rules. The currents go in steps of
    10 mA, so a source of 20 W names 9 V 2.22 A, which is 19.98 W.

    Examples
    --------
    >>> design_power([Fixed(5.0, 3.0), Fixed(9.0, 2.22)])
    19.98

    References
    ----------
    .. [1] USB Power Delivery Specification, revision 3.x, source power rules, in two public
       renderings of the table.
    """
    return max((item.voltage * item.current for item in objects if isinstance(item, Fixed)),
               default=nan)


def most_power(objects: Iterable[PowerObject]) -> float:
    """The most that any object of a list stands for; NaN for an empty list. [W]"""
    return max(map(power_of, objects), default=nan)


def current_at(objects, voltage):
    r"""The largest current that a list offers at a voltage that a device can choose.

    .. math:: I = \min(I_i, P / U)

    where the object is power-limited or states a power.

    Parameters
    ----------
    objects : iterable of PowerObject
        The whole list. [V, A, W]
    voltage : float
        Asked for. [V]

    Returns
    -------
    float
        NaN where no object reaches the voltage; variable supplies and batteries never do, for
        their voltage cannot be chosen. [A]

    Errors
    ------
    None in the numbers; a fixed supply counts within 5 % of its voltage.

    Examples
    --------
    >>> current_at([Fixed(5.0, 3.0), Programmable(3.3, 11.0, 2.0)], 9.0)
    2.0

    References
    ----------
    .. [1] USB Power Delivery Specification, revision 3.2, version 1.1, tables 6.14 and 6.15.
    """
    objects = tuple(objects)
    power = design_power(objects)
    found = (_current(item, voltage, power) for item in objects)
    return max((current for current in found if current is not None), default=nan)


def _current(item, voltage, power):
    if isinstance(item, Fixed):
        near = abs(item.voltage - voltage) <= AROUND * item.voltage
        return item.current if near else None
    if isinstance(item, Variable | Battery) or not item.low <= voltage <= item.high:
        return None
    match item:
        case Programmable(power_limited=True) if power > 0:
            return min(item.current, power / voltage)
        case Programmable():
            return item.current
        case Adjustable():
            return min(MOST_CURRENT, item.power / voltage)
    return item.current_to_15 if voltage <= 15 else item.current_to_20
