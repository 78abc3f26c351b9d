"""Whose mains it is: a charger built into an outlet also prints the mains that it passes on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from teardowns.reading.plates.claims import PlateClaim

_FACTS = ("voltage_low", "voltage_high", "frequency_low", "frequency_high", "current")
_OUTLET = "an outlet that passes the mains on?"
_BOTH = f"two input ratings: are both the charger's own, or does one belong to {_OUTLET}"
_ONE = f"is this the charger's own input, or does it belong to {_OUTLET}"

Labels = Sequence[tuple[str, int]]  # ("input" or "outlet", where it begins), in printed order


def input_doubts(claims: Iterable[PlateClaim], text: str, labels: Labels) -> tuple[str, ...]:
    """What a person must decide about the input ratings of one text."""
    inputs = [claim for claim in claims if claim.kind == "input"]
    rivals = _rivals(inputs, text, labels)
    if rivals:
        return tuple(f"“{one.text}” and “{other.text}”: {_BOTH}" for one, other in rivals)
    return tuple(f"“{i.text}”: {_ONE}" for i in inputs if _is_labelled_outlet(i, text, labels))


def _rivals(
    inputs: list[PlateClaim], text: str, labels: Labels
) -> list[tuple[PlateClaim, PlateClaim]]:
    """Pairs that disagree and stand apart; the same rating in several languages is one."""
    rivals = []
    stated: dict[str, PlateClaim] = {}  # who said it first, by fact
    seen = set()
    for claim in inputs:
        facts = {name: getattr(claim, name) for name in _FACTS}
        others = [stated[n] for n in stated if facts[n] not in (None, getattr(stated[n], n))]
        known = tuple(facts.values()) in seen
        if others and not known and _stand_apart(others[0], claim, text, labels):
            rivals.append((others[0], claim))
        seen.add(tuple(facts.values()))
        stated = {name: claim for name, value in facts.items() if value is not None} | stated
    return rivals


def _stand_apart(one: PlateClaim, other: PlateClaim, text: str, labels: Labels) -> bool:
    """115V/60Hz 230V/50Hz is one rating for two mains; lines and labels part two ratings."""
    if other.start < one.end:
        return False
    label_parts = any(kind == "outlet" or one.end <= at < other.start for kind, at in labels)
    return label_parts or "\n" in text[one.end : other.start]


def _is_labelled_outlet(claim: PlateClaim, text: str, labels: Labels) -> bool:
    line_start = text.rfind("\n", 0, claim.start) + 1
    before = [kind for kind, at in labels if line_start <= at < claim.start]
    return before[-1:] == ["outlet"]
