"""Every gap that a default can fill, filled."""
import pkgutil
from graphlib import TopologicalSorter
from importlib import import_module

import numpy as np

from . import default_values
from .claims import ClaimTable, largest_by_unit
from .columns import DEFAULT, Column, Frame, exact
from .default_value import Default
from .rule import CONDITIONS

# V, V, Hz, when no plate was read. A unit for 220 to 240 V only needs far smaller parts than one
# for 100 V: taking an unread plate for 100 to 240 V would condemn honest ones.
ASSUMED_MAINS = (220.0, 240.0, 50.0)
MAINS_SOURCE = ("Not read from a plate: 220 to 240 V, 50 Hz is taken, the better case for the "
                "claims.")


def _found():
    for module in pkgutil.iter_modules(default_values.__path__, default_values.__name__ + "."):
        for item in vars(import_module(module.name)).values():
            found = getattr(item, "default", None)
            if isinstance(found, Default) and found.compute.__module__ == module.name:
                yield found


def _in_order(found: list[Default]) -> dict[str, Default]:
    """By code, each after the defaults that it reads; of two for one code LookupError."""
    by_code = {item.code: item for item in found}
    if len(by_code) < len(found):
        raise LookupError("two defaults for one quantity")
    needs = {code: sorted({_base(name) for name in item.reads} & by_code.keys() - {code})
             for code, item in sorted(by_code.items())}
    return {code: by_code[code] for code in TopologicalSorter(needs).static_order()}


def _base(name):
    return name.removesuffix("_u")


DEFAULTS = _in_order(sorted(_found(), key=lambda item: item.code))
MAINS_ENDS = ("mains_low", "mains_high", "mains_frequency")


def _conditioned():
    """The defaults that depend on the mains end or on the claim's voltage, directly or not."""
    found: set[str] = set()
    for code, item in DEFAULTS.items():
        if {_base(name) for name in item.reads} & (CONDITIONS | found):
            found.add(code)
    return frozenset(found)


CONDITIONED = _conditioned()


@np.errstate(invalid="ignore", divide="ignore")
def fill_defaults(frame: Frame, claims: ClaimTable) -> Frame:
    """The frame with every gap filled that a default can fill, and with the mains ends.

    Adds claimed_power, the largest claimed output power of the unit, and the columns
    mains_low, mains_high and mains_frequency.
    """
    largest = largest_by_unit(claims.row, claims.claimed_power, frame.size)
    frame = frame.with_columns({"claimed_power": exact(largest)})
    frame = frame.with_columns(_mains(frame))
    return _filled(frame, (item for code, item in DEFAULTS.items() if code not in CONDITIONED))


@np.errstate(invalid="ignore", divide="ignore")
def fill_conditioned(frame: Frame) -> Frame:
    """The frame of some cases with the defaults that depend on their conditions."""
    return _filled(frame, (DEFAULTS[code] for code in DEFAULTS if code in CONDITIONED))


def _filled(frame, defaults):
    for item in defaults:
        value, u = item.compute(*(_read(frame, name) for name in item.reads))
        how = np.where(np.isnan(value), 0, item.how).astype(np.int8)
        frame = frame.with_columns(
            {item.code: frame[item.code].filled(Column(value, u, how))})
    return frame


def _read(frame, name):
    return frame[_base(name)].u if name.endswith("_u") else frame[name].value


def _mains(frame):
    low, high, frequency = (frame[code] for code in (
        "rated_voltage_low", "rated_voltage_high", "rated_frequency"))
    low, high = low.filled(high), high.filled(low)      # one printed voltage is both ends
    assumed = (exact(np.full(frame.size, value), DEFAULT) for value in ASSUMED_MAINS)
    filled = (column.filled(other) for column, other in zip(
        (low, high, frequency), assumed, strict=True))
    return dict(zip(MAINS_ENDS, filled, strict=True))
