"""What a port advertises: the 32-bit power data objects of USB Power Delivery.

One table says which bits mean what; reading and writing follow it. Bits that no field uses are
kept as `reserved`, so that a strange word can be told of instead of being read as an ordinary one.
"""
import re
from collections.abc import Iterable
from dataclasses import dataclass

FLAGS = {
    29: "dual-role power", 28: "USB suspend", 27: "unconstrained power",
    26: "USB communication", 25: "dual-role data", 24: "unchunked messages", 23: "EPR capable",
}
FLAG_BITS = sum(1 << bit for bit in FLAGS)
EPR_CAPABLE = FLAGS[23]
WORD = re.compile(r"(?:0[xX])?([0-9A-Fa-f]{8})")


class PowerObjectError(ValueError):
    """A word that is no power data object; the message names it and the remedy."""


@dataclass(frozen=True, slots=True)
class Fixed:
    voltage: float                          # V
    current: float                          # A
    peak: int = 0                           # code of the overload that is allowed for moments
    flags: frozenset[str] = frozenset()     # of the source; only the first object bears them
    reserved: int = 0                       # bits that are set and should not be


@dataclass(frozen=True, slots=True)
class Variable:
    """A voltage somewhere between two ends, that nobody can choose."""

    low: float          # V
    high: float         # V
    current: float      # A
    reserved: int = 0


@dataclass(frozen=True, slots=True)
class Battery:
    low: float          # V
    high: float         # V
    power: float        # W
    reserved: int = 0


@dataclass(frozen=True, slots=True)
class Programmable:
    """Programmable power supply, in the standard power range (PPS)."""

    low: float                      # V
    high: float                     # V
    current: float                  # A
    power_limited: bool = False     # gives less current where the power would be exceeded
    reserved: int = 0


@dataclass(frozen=True, slots=True)
class Adjustable:
    """Adjustable voltage supply of the extended power range (EPR AVS)."""

    low: float          # V
    high: float         # V
    power: float        # W
    peak: int = 0
    reserved: int = 0


@dataclass(frozen=True, slots=True)
class AdjustableStandard:
    """Adjustable voltage supply of the standard power range (SPR AVS): 9 V to 15 or 20 V."""

    current_to_15: float    # A, from 9 V to 15 V
    current_to_20: float    # A, from 15 V to 20 V; 0 = it ends at 15 V
    peak: int = 0
    reserved: int = 0

    @property
    def low(self) -> float:
        return 9.0

    @property
    def high(self) -> float:
        return 20.0 if self.current_to_20 > 0 else 15.0


PowerObject = Fixed | Variable | Battery | Programmable | Adjustable | AdjustableStandard


@dataclass(frozen=True, slots=True)
class _Layout:
    """mask and tag: the bits that tell the kind. fields: name, lowest bit, bits, steps a unit."""

    kind: type
    mask: int
    tag: int
    fields: tuple[tuple[str, int, int, int], ...]
    flags: int = 0

    @property
    def used(self) -> int:
        return self.mask | self.flags | sum(
            (1 << bits) - 1 << shift for _, shift, bits, _ in self.fields)


_TYPE, _AUGMENTED = 0b11 << 30, 0b1111 << 28
LAYOUTS = (
    _Layout(Fixed, _TYPE, 0b00 << 30, (
        ("peak", 20, 2, 1), ("voltage", 10, 10, 20), ("current", 0, 10, 100)), FLAG_BITS),
    _Layout(Battery, _TYPE, 0b01 << 30, (
        ("high", 20, 10, 20), ("low", 10, 10, 20), ("power", 0, 10, 4))),
    _Layout(Variable, _TYPE, 0b10 << 30, (
        ("high", 20, 10, 20), ("low", 10, 10, 20), ("current", 0, 10, 100))),
    _Layout(Programmable, _AUGMENTED, 0b1100 << 28, (
        ("power_limited", 27, 1, 1), ("high", 17, 8, 10), ("low", 8, 8, 10),
        ("current", 0, 7, 20))),
    _Layout(Adjustable, _AUGMENTED, 0b1101 << 28, (
        ("peak", 26, 2, 1), ("high", 17, 9, 10), ("low", 8, 8, 10), ("power", 0, 8, 1))),
    _Layout(AdjustableStandard, _AUGMENTED, 0b1110 << 28, (
        ("peak", 26, 2, 1), ("current_to_15", 10, 10, 100), ("current_to_20", 0, 10, 100))),
)
_PLAIN = {"peak": int, "power_limited": bool}       # what is no quantity


def read_word(text: str) -> int:
    """The word that eight hexadecimal digits stand for."""
    if match := WORD.fullmatch(text.strip()):
        return int(match[1], 16)
    raise PowerObjectError(f"“{text}” is no 32-bit word: write eight hexadecimal digits, for "
                           "example 0A01912C.")


def decode(word, first):
    r"""The power data object that a word stands for.

    .. math:: U = n\cdot 50\,\mathrm{mV},\quad I = n\cdot 10\,\mathrm{mA}

    for a fixed supply; the other kinds have the steps of the table above.

    Parameters
    ----------
    word : int
        The 32 bits, most significant first; on the wire the lowest byte goes first. [1]
    first : bool
        Whether it stands first in its list: only there are bits 29 to 23 flags. [1]

    Returns
    -------
    PowerObject
        Voltages, currents and powers in V, A and W. A word that is none raises PowerObjectError.

    Errors
    ------
    None: the words are exact. What a port then gives may be 5 % off the voltage.

    Examples
    --------
    >>> decode(0x0002D12C, first=False)
    Fixed(voltage=9.0, current=3.0, peak=0, flags=frozenset(), reserved=0)

    References
    ----------
    .. [1] USB Power Delivery Specification, revision 3.2, version 1.1, tables 6.14 and 6.15 for
       the adjustable supplies; the type bits as in the Linux kernel, include/linux/usb/pd.h.
    """
    layout = _layout_of(word)
    values = {name: _value(name, word >> shift & (1 << bits) - 1, per)
              for name, shift, bits, per in layout.fields}
    flags = word & layout.flags
    if layout.flags and first:
        values["flags"] = frozenset(name for bit, name in FLAGS.items() if flags >> bit & 1)
        flags = 0
    return layout.kind(**values, reserved=word & ~layout.used | flags)


def _value(name, steps, per):
    return _PLAIN[name](steps) if name in _PLAIN else steps / per


def _layout_of(word):
    if not 0 <= word < 1 << 32:
        raise PowerObjectError(f"{word} does not fit into 32 bits: enter one word at a time.")
    if word == 0:
        raise PowerObjectError("The word 00000000 fills an empty place of a list and offers "
                               "nothing: leave it out.")
    for layout in LAYOUTS:
        if word & layout.mask == layout.tag:
            return layout
    raise PowerObjectError(f"The word {word:08X} is of a kind that is not defined (bits 31 to 28 "
                           "are all set): compare it with the log that it is from.")


def encode(item: PowerObject) -> int:
    """The word of an object, its reserved bits as they were; values off the steps are refused."""
    layout = next(layout for layout in LAYOUTS if layout.kind is type(item))
    word = layout.tag | item.reserved
    for name, shift, bits, per in layout.fields:
        word |= _steps(name, getattr(item, name), bits, per) << shift
    flags = getattr(item, "flags", ())
    return word | sum(1 << bit for bit, name in FLAGS.items() if name in flags)


def _steps(name, value, bits, per):
    steps = round(value * per)
    if abs(steps - value * per) > 1e-6 or not 0 <= steps < 1 << bits:
        raise PowerObjectError(f"{name.replace('_', ' ')} {value:g} cannot be written: it goes in "
                               f"steps of {1 / per:g} from 0 to {((1 << bits) - 1) / per:g}.")
    return steps


@dataclass(frozen=True, slots=True)
class CapabilityList:
    """What could be read of a list, in its order, and a sentence for each word that could not."""

    objects: tuple[PowerObject, ...]
    problems: tuple[str, ...] = ()

    def of(self, kind: type) -> tuple:
        return tuple(item for item in self.objects if isinstance(item, kind))


def read_list(words: Iterable[int]) -> CapabilityList:
    """The objects of one list. Empty places (00000000) are passed over."""
    objects, problems = [], []
    for place, word in enumerate(words):
        if word == 0:
            continue
        try:
            objects.append(decode(word, first=place == 0))
        except PowerObjectError as error:
            problems.append(str(error))
    return CapabilityList(tuple(objects), tuple(problems))
