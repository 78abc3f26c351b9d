"""One type takes another's place in the library: which one, and never in a circle."""
from __future__ import annotations

from teardowns.models import Part

from .proposals import Refused

LONGEST_CHAIN = 50


def supersede_part(part: Part, successor: Part | None) -> None:
    """Note who takes the part's place, or that nobody does; the caller saves it."""
    check_successor(part, successor)
    part.superseded_by = successor


def check_successor(part: Part, successor: Part | None) -> None:
    """Raises Refused for what the library says already, for an entry that is not listed, and for
    a circle."""
    if (successor.pk if successor else None) == part.superseded_by_id:
        raise Refused({"successor": "The library says so already: name another part."})
    if successor is None:
        return
    if successor.pk == part.pk:
        raise Refused({"successor": "A part cannot take its own place: name another."})
    if successor.accepted_at is None:
        raise Refused({"successor": f"{successor.marking} is not in the library yet: propose it "
                                    "first."})
    if part.pk in {later.pk for later in successors(successor)}:
        raise Refused({"successor": f"{successor.marking} is itself superseded by {part.marking}, "
                                    "directly or in steps: correct that one first."})


def successors(part: Part) -> list[Part]:
    """The parts that took its place one after the other; a query each, and there are few."""
    found: list[Part] = []
    while part.superseded_by is not None and len(found) < LONGEST_CHAIN:
        part = part.superseded_by
        found.append(part)
    return found
