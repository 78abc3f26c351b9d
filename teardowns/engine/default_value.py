"""What declares the default of an unmeasured quantity.

A default is a function that bears the quantity's code; its parameters name what it reads: a code
for the value, a code followed by "_u" for its standard uncertainty. It returns the value and the
standard uncertainty, NaN where it knows none. They stand in default_values/, and each shows in
the working as a "rulebook default".
"""
import inspect
from collections.abc import Callable
from dataclasses import dataclass

from .columns import DEFAULT

HIGH_RANGE = 180.0       # V; a plate that begins above is for 220 to 240 V only


@dataclass(frozen=True, slots=True)
class Default:
    code: str
    reads: tuple[str, ...]
    compute: Callable
    source: str
    how: int = DEFAULT           # or DERIVED: worked out from evidence


def default(source, how=DEFAULT):
    def decorate(compute):
        reads = tuple(inspect.signature(compute).parameters)
        compute.default = Default(compute.__name__, reads, compute, source, how)
        return compute

    return decorate


def triangular(low: float, mode: float, high: float) -> tuple[float, float]:
    """Mean and standard deviation of a triangular distribution."""
    square = (low * low + mode * mode + high * high
              - low * mode - low * high - mode * high) / 18
    return (low + mode + high) / 3, square**0.5
