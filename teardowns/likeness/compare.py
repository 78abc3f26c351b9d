"""How alike two units are, with all that speaks for one board and all that speaks against it.

What both have in common speaks for one board the more, the fewer units have it: ln(N / n), where n
of N units do. That is the logarithm of the ratio in which such a find shifts the odds if it is
certain on one board and a coincidence otherwise. What differs speaks against by a multiple of ln N,
so that it keeps its weight beside the finds when the collection grows.

    score = for / (for + against + ln N)

ln N is what it takes to single out one of N units. Finds on one board depend on each other (a
controller comes with its usual parts), so the score is a rank from 0 to 1 and no probability. The
weights and the form are our own choice.
"""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import log, sqrt

from .features import MARKING, ORDER, PORTS, SIGN, SIZE, UNREAD, VALUE, Feature
from .words import words_of

# What a difference weighs, in ln N: 1 takes back one find that nobody else has. Transformer and
# controller make a board what it is; other parts makers change for what is in stock.
AGAINST = {
    f"{MARKING}/primary_controller": 2.0, f"{MARKING}/core": 1.5, f"{MARKING}/transformer": 1.0,
    f"{MARKING}/port_converter": 0.5, f"{MARKING}/protocol_controller": 0.3,
    f"{MARKING}/primary_switch": 0.3, f"{MARKING}/output_rectifier": 0.3,
    f"{MARKING}/optocoupler": 0.1, f"{MARKING}/pass_switch": 0.1,
    f"{VALUE}/sense_resistor": 0.3, f"{VALUE}/bulk_capacitor": 0.3, f"{VALUE}/x_capacitor": 0.2,
    f"{VALUE}/barrier_capacitor": 0.2, f"{VALUE}/output_capacitor": 0.2, f"{VALUE}/fuse": 0.2,
    f"{VALUE}/fusible_resistor": 0.2, f"{VALUE}/discharge_resistor": 0.2, f"{VALUE}/varistor": 0.1,
    f"{SIZE}/primary_turns": 1.5, f"{SIZE}/secondary_turns": 1.5, f"{SIZE}/auxiliary_turns": 1.0,
    f"{SIZE}/core_width": 1.0, f"{SIZE}/core_height": 1.0, f"{SIZE}/core_depth": 1.0,
    f"{SIZE}/centre_leg_width": 1.0, f"{SIZE}/primary_inductance": 0.5,
    f"{SIZE}/primary_wire_diameter": 0.3, f"{SIZE}/secondary_wire_diameter": 0.3,
    f"{SIZE}/output_capacitor_diameter": 0.1, f"{SIZE}/output_capacitor_length": 0.1,
    ORDER: 1.0, PORTS: 0.5,
}
SIGN_AGAINST = 0.1           # the same part, under another number on the board
COMMON_SIGN = 0.5            # at most [ln], for the same number: "C1" is nearly everywhere
PICTURE_FOR = 4.0            # [ln] of two pictures that are the same to the bit
NEAR = 8                     # bits: from here on two pictures say nothing, for angles differ
WIDE = 2.0                   # combined standard uncertainties that two readings may lie apart


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing that speaks for or against one board."""

    slot: str
    ours: str                            # as recorded here
    theirs: str                          # as recorded there
    weight: float                        # ln of the ratio of odds, never negative
    our_refs: tuple[str, ...]
    their_refs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    score: float                         # 0 to 1
    speaks_for: tuple[Reason, ...]       # the weightiest first
    speaks_against: tuple[Reason, ...]


def compare(ours: Iterable[Feature], theirs: Iterable[Feature],
            units_with: Callable[[int], int], units: int) -> Comparison:
    """units_with : how many of the `units` have a word"""
    mine, yours = _by_slot(ours), _by_slot(theirs)
    speaks_for, speaks_against = [], []
    for slot in mine.keys() & yours.keys():
        shared = list(_shared(mine[slot], yours[slot], units_with, units))
        speaks_for += shared
        if not shared and _differ(mine[slot], yours[slot]):
            weight = _weight_against(slot) * log(max(units, 2))
            speaks_against.append(_all_of(slot, mine[slot], yours[slot], weight))
    return Comparison(_score(speaks_for, speaks_against, units),
                      _ordered(speaks_for), _ordered(speaks_against))


def readings_apart(value: float, u: float, other: float, other_u: float) -> float:
    """How many combined standard uncertainties two readings lie apart; independent readings."""
    spread = sqrt(u * u + other_u * other_u)
    return abs(value - other) / spread if spread else (0.0 if value == other else float("inf"))


def _by_slot(found):
    slots: dict[str, list[Feature]] = defaultdict(list)
    for one in found:
        slots[one.slot].append(one)
    return slots


def _shared(mine, yours, units_with, units):
    """Each of ours with the best of theirs that is the same, both used once."""
    left = list(yours)
    for one in mine:
        same = [(weight, -place, other) for place, other in enumerate(left)
                if (weight := _weight_for(one, other, units_with, units)) is not None]
        if same:
            weight, _, other = max(same, key=lambda each: each[:2])
            left.remove(other)
            yield _reason(one, other, weight)


def _weight_for(one, other, units_with, units):
    """None where the two are not the same."""
    if one.picture is not None:
        apart = ((one.picture ^ other.picture) & (1 << 64) - 1).bit_count()
        return PICTURE_FOR * (1 - apart / NEAR) if apart < NEAR else None
    if one.value is not None:
        if readings_apart(one.value, one.u, other.value, other.u) > WIDE:
            return None
        common = set(words_of(one)) & set(words_of(other))
        return _rarity(common, units_with, units)
    if one.text != other.text:
        return None
    weight = _rarity(words_of(one), units_with, units)
    return min(weight, COMMON_SIGN) if one.slot.startswith(SIGN) else weight


def _rarity(shared, units_with, units):
    """By the commonest word that both have; two have it at least: these."""
    if not shared:
        return 0.0
    return max(0.0, log(units / max(2, *map(units_with, shared))))


def _differ(mine, yours):
    """Whether each of ours is another one than each of theirs; what was not read is no other."""
    slot = mine[0].slot
    if not _weight_against(slot):
        return False
    if not slot.startswith(f"{VALUE}/"):
        return True
    return all(_ratings_differ(one.text, other.text) for one in mine for other in yours)


def _ratings_differ(one, other):
    return any(ours != theirs for ours, theirs in zip(one.split(), other.split(), strict=True)
               if UNREAD not in (ours, theirs))


def _weight_against(slot):
    return SIGN_AGAINST if slot.startswith(f"{SIGN}/") else AGAINST.get(slot, 0.0)


def _reason(one, other, weight):
    return Reason(one.slot, one.shown, other.shown, weight, one.refs, other.refs)


def _all_of(slot, mine, yours, weight):
    """Nothing of ours is anything of theirs, so all are named."""
    ours, theirs = (", ".join(one.shown for one in side) for side in (mine, yours))
    our_refs, their_refs = (tuple(ref for one in side for ref in one.refs)
                            for side in (mine, yours))
    return Reason(slot, ours, theirs, weight, our_refs, their_refs)


def _score(speaks_for, speaks_against, units):
    pro, contra = (sum(one.weight for one in reasons) for reasons in (speaks_for, speaks_against))
    return pro / (pro + contra + log(max(units, 2)))


def _ordered(reasons):
    return tuple(sorted(reasons, key=lambda one: (-one.weight, one.slot, one.ours)))
