"""What a unit could take over from the boards of its family, each row with its origin.

A row of its own always wins, also one that says "looked and not found" or "not readable": only
what nobody looked at here is taken over. Between several sisters the surest reading is taken as it
is and never averaged, for sisters show one design and not several. A sister that contradicts this
unit in its design lends nothing, and neither do two that contradict each other, for nobody knows
which of them is the sister; of a part that they have differently nobody's is taken.
Nothing here touches the document that was published.
"""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations
from math import sqrt
from typing import Any

from teardowns.exchange.document import counts
from teardowns.exchange.inheritable import (
    COMPONENT,
    CORE,
    CORE_ROLES,
    INHERITABLE,
    MEASURABLE,
    METERED,
    ONE_FACT,
    SAME_TYPE,
    STACK,
    Inheritable,
)
from teardowns.exchange.observations import Observation, observations
from teardowns.exchange.observing.observation import is_recorded
from teardowns.exchange.schema import row_schema
from teardowns.exchange.shape import full
from teardowns.reading.markings_alike import alike

Document = Mapping[str, Any]
CONTRADICTS = 3.0            # combined standard uncertainties, as where evidence contradicts itself
NOT_LOOKED, SAME_MARKING = "not looked at here", "the same marking was read here"
MARKED = ("primary_controller", "core")       # whose marking has to be the same on one board


@dataclass(frozen=True)
class Sister:
    """A unit of the same family, by a public version of it."""

    unit: int
    version: int
    document: Document

    @cached_property
    def design(self) -> Mapping[str, Observation]:
        """By code, the surest confirmed reading of each quantity that a design fixes."""
        found: dict[str, Observation] = {}
        for seen in observations(self.document, confirmed_only=True):
            if _is_lent(seen) and (seen.code not in found or seen.u < found[seen.code].u):
                found[seen.code] = seen
        return found


@dataclass(frozen=True, slots=True)
class Inherited:
    """One quantity that another unit showed."""

    code: str
    value: float                         # SI
    u: float                             # standard uncertainty, widened
    read_u: float                        # of the reading itself
    share: float                         # by which it was widened, of the value
    because: str                         # NOT_LOOKED or SAME_MARKING
    unit: int
    version: int
    refs: tuple[str, ...]                # rows of that version


@dataclass(frozen=True, slots=True)
class Disagreement:
    """What two units of a family show differently: evidence against one board."""

    about: str                           # code of a quantity, or a role whose markings differ
    first: Inherited | None
    second: Inherited | None
    units: tuple[int, int]
    texts: tuple[str, str] = ("", "")    # markings, where it is about a role


@dataclass(frozen=True, slots=True)
class Inheritance:
    rows: tuple[Inherited, ...]
    set_aside: Mapping[int, tuple[Disagreement, ...]]    # sisters that contradict this unit
    between: tuple[Disagreement, ...]    # of the others: those that contradict each other

    @property
    def contradicting(self) -> set[int]:
        """Sisters that lend nothing."""
        return {*self.set_aside, *(unit for found in self.between for unit in found.units)}


def inherit(mine: Sister, sisters: Sequence[Sister]) -> Inheritance:
    """What `mine` could take over. Documents are full; only confirmed rows of sisters are read."""
    aside = {sister.unit: found for sister in sisters if (found := disagreements(mine, sister))}
    left = [sister for sister in sisters if sister.unit not in aside]
    between = tuple(found for pair in combinations(left, 2) for found in disagreements(*pair))
    made = Inheritance((), aside, between)
    heard = [sister for sister in left if sister.unit not in made.contradicting]
    return replace(made, rows=tuple(_rows(mine, heard)))


def _rows(mine: Sister, heard: Sequence[Sister]) -> Iterator[Inherited]:
    for code, lent in _by_code(heard).items():
        lent = [(sister, seen) for sister, seen in lent
                if _may_take(INHERITABLE[code], mine.document, sister.document)]
        if lent and not _first_contradiction(code, lent):
            sister, seen = min(lent, key=lambda pair: (pair[1].u, pair[0].unit))
            yield _row(code, seen, sister, *_terms(INHERITABLE[code], mine.document))


def extended(document: Document, rows: Iterable[Inherited]) -> dict[str, Any]:
    """A copy of a full document with inherited rows as measurements that say where they are from.
    """
    schema = row_schema("measurements")
    added = [full({
        "key": f"sister-{row.unit}-{row.code.replace('_', '-')}", "how": "estimated",
        "review_state": "confirmed", "quantity": row.code, "value": row.value,
        "uncertainty": row.u, "uncertainty_kind": "standard",
        "note": f"Found in unit {row.unit}, version {row.version}, and not in this one.",
    }, schema) for row in rows]
    return {**document, "measurements": [*document["measurements"], *added]}


def disagreements(one: Sister, other: Sister) -> tuple[Disagreement, ...]:
    """In what two units show two designs: what speaks against one board."""
    ours, theirs = one.design, other.design
    found: list[Disagreement] = []
    for code in INHERITABLE:
        if INHERITABLE[code].is_design and code in ours and code in theirs:
            pair = [(one, ours[code]), (other, theirs[code])]
            found += filter(None, [_first_contradiction(code, pair)])
    return (*found, *_other_markings(one, other))


def pooled(sisters: Sequence[Sister]) -> list[Inherited]:
    """Every reading of a design that a family shows, as it was read, code by code."""
    return [_row(code, seen, sister, "", 0.0)
            for code, lent in _by_code(sisters).items() for sister, seen in lent]


def _by_code(sisters):
    """In the order of INHERITABLE, each sister's reading."""
    found = {code: [(one, one.design[code]) for one in sisters if code in one.design]
             for code in INHERITABLE}
    return {code: lent for code, lent in found.items() if lent}


def _is_lent(seen):
    """Whether a reading is of the board and not of this one piece of it."""
    if seen.code not in INHERITABLE or seen.port or seen.value <= 0:
        return False
    return seen.code in MEASURABLE or not any(ref.startswith("measurement/") for ref in seen.refs)


def _row(code, seen, sister, because, share):
    u = sqrt(seen.u ** 2 + (share * seen.value) ** 2)
    return Inherited(code, seen.value, u, seen.u, share, because, sister.unit, sister.version,
                     tuple(seen.refs))


def _terms(kind: Inheritable, mine: Document) -> tuple[str, float]:
    """Why it is taken over, and how much it is widened."""
    if kind.about == COMPONENT and _looked_at(_of_role(mine, kind.of)):
        return SAME_MARKING, SAME_TYPE
    return NOT_LOOKED, kind.share


def _may_take(kind: Inheritable, mine: Document, theirs: Document) -> bool:
    """Whether nobody looked at it here, or all that was missing is what its type says."""
    codes = (kind.code, *ONE_FACT.get(kind.code, ()))
    if any(row["quantity"] in codes and row["state"] != "not_looked"
           for row in mine["measurements"]) or kind.code in _seen_here(mine):
        return False
    if kind.about == METERED:
        return True
    if kind.about == STACK:
        return not _looked_at(row for row in mine["stack"] if row["winding"] == kind.of)
    if kind.about == CORE:
        return not _core_looked_at(mine)
    own = _looked_at(_of_role(mine, kind.of))
    return not own or _same_type(own, _looked_at(_of_role(theirs, kind.of)))


def _seen_here(mine):
    """Codes that any row of this unit speaks of, confirmed or not."""
    return {seen.code for seen in observations(mine)}


def _core_looked_at(mine):
    return any(_looked_at(_of_role(mine, role)) for role in CORE_ROLES) or any(
        row["quantity"] in INHERITABLE and INHERITABLE[row["quantity"]].about == CORE
        and row["state"] != "not_looked" for row in mine["measurements"])


def _looked_at(rows: Iterable[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    """Rows of what somebody looked at, whatever came of it and whoever confirmed it."""
    return [row for row in rows if row["state"] != "not_looked"]


def _of_role(document, role):
    return [row for row in document["components"] if row["role"] == role]


def _same_type(own, theirs) -> bool:
    """All recorded and confirmed here, and marked as there."""
    speaking = [row for row in own if is_recorded(row) and counts(row, confirmed_only=True)]
    markings = sorted(alike(row["marking"]) for row in speaking)
    return (len(speaking) == len(own) and all(markings)
            and markings == sorted(alike(row["marking"]) for row in theirs))


def _first_contradiction(code: str, lent: Sequence[tuple[Sister, Observation]]
                         ) -> Disagreement | None:
    for at, (one, ours) in enumerate(lent):
        for other, theirs in lent[at + 1:]:
            spread = sqrt(ours.u ** 2 + theirs.u ** 2)
            if abs(ours.value - theirs.value) > CONTRADICTS * spread:
                return Disagreement(code, _row(code, ours, one, "", 0.0),
                                    _row(code, theirs, other, "", 0.0), (one.unit, other.unit))
    return None


def _other_markings(one: Sister, other: Sister) -> Iterator[Disagreement]:
    for role in MARKED:
        ours, theirs = (_markings(sister.document, role) for sister in (one, other))
        if ours and theirs and not ours.keys() & theirs.keys():
            yield Disagreement(role, None, None, (one.unit, other.unit),
                               (", ".join(ours.values()), ", ".join(theirs.values())))


def _markings(document, role):
    """Folded → as it was read, of confirmed rows."""
    found: dict[str, str] = defaultdict(str)
    for row in _of_role(document, role):
        if is_recorded(row) and counts(row, confirmed_only=True) and row["marking"]:
            found[alike(row["marking"])] = row["marking"]
    return found
