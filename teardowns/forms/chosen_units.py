"""Which units an address asks to compare: `units=3,8v2,12`."""
from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass

LEAST, MOST = 2, 6
NUMBER = re.compile(r"([0-9]{1,9})(?:v([0-9]{1,6}))?", re.IGNORECASE)
QUOTED, SHOWN = 3, 20           # unreadable pieces that are named, and so many characters of each
LOOKED_UP = 60                  # units of an address that are asked for at all


@dataclass(frozen=True, slots=True)
class Chosen:
    """A unit, and the version of it that is meant; "" is the one that stands."""

    pk: int
    version: str = ""

    def __str__(self) -> str:
        return f"{self.pk}v{self.version}" if self.version else str(self.pk)


@dataclass(frozen=True, slots=True)
class Choice:
    """What was asked for, in its order, and a sentence for each thing that is wrong with it."""

    units: tuple[Chosen, ...] = ()
    problems: tuple[str, ...] = ()


def read_choice(texts: Iterable[str],
                there: Callable[[Collection[int]], Collection[int]] = lambda pks: pks) -> Choice:
    """Every value of the parameter; each may name several units, with commas or spaces between.

    there : which of some units there are; asked only where too many are named, for one that is
    not there takes nobody's place
    """
    pieces = [piece for text in texts for piece in re.split(r"[\s,;]+", text) if piece]
    known = {piece: _read(piece) for piece in pieces}
    found = [chosen for piece in pieces if (chosen := known[piece])]
    units = tuple(dict.fromkeys(found))
    kept, left = _as_many_as_fit(units, there)
    problems = (_unreadable([piece for piece, chosen in known.items() if chosen is None]),
                _twice([chosen for chosen in units if found.count(chosen) > 1]),
                _too_many(left))
    return Choice(kept, tuple(filter(None, problems)))


def written(units: Iterable[Chosen]) -> str:
    """As the address has it: `3,8v2,12`."""
    return ",".join(map(str, units))


def named(units: Iterable[Chosen]) -> str:
    """ "unit 3 and unit 8, version 2" """
    words = [f"unit {one.pk}" + (f", version {one.version}" if one.version else "")
             for one in units]
    return " and ".join(filter(None, ("; ".join(words[:-1]), *words[-1:])))


def _read(piece):
    found = NUMBER.fullmatch(piece)
    if found is None or int(found[1]) == 0:
        return None
    return Chosen(int(found[1]), str(int(found[2])) if found[2] else "")


def _as_many_as_fit(units, there):
    """Those to show, with some that are not there, which are told of; and those left out."""
    if len(units) <= MOST:
        return units, ()
    known = there({one.pk for one in units[:LOOKED_UP]})
    here = [one for one in units if one.pk in known]
    gone = [one for one in units[:LOOKED_UP] if one.pk not in known]
    kept = {*here[:MOST], *gone[:MOST]}
    return (tuple(one for one in units if one in kept),
            tuple(one for one in units if one not in kept and one not in gone))


def _unreadable(pieces):
    if not pieces:
        return ""
    quoted = ", ".join(f"“{piece[:SHOWN]}{'…' * (len(piece) > SHOWN)}”"
                       for piece in pieces[:QUOTED])
    rest = f" and {len(pieces) - QUOTED} more" if len(pieces) > QUOTED else ""
    return (f"{quoted}{rest}: not the number of a unit. A unit is named by the number of its "
            "page, such as 12, or 12v2 for its second version. The rest is kept.")


def _twice(units):
    if not units:
        return ""
    said = named(units[:MOST])
    return f"{said[:1].upper()}{said[1:]}: asked for more than once, and shown once."


def _too_many(units):
    if not units:
        return ""
    rest = f" and {len(units) - MOST} more" if len(units) > MOST else ""
    return (f"At most {MOST} units stand side by side. Left out: {named(units[:MOST])}{rest}. "
            "Take one out of the comparison to make room.")
