"""A reason for or against one board, in words."""
from __future__ import annotations

from collections.abc import Sequence

from teardowns.engine.quantities import QUANTITIES

from .compare import Reason
from .features import MARKING, ORDER, PHOTO, PORTS, SIGN, SIZE, VALUE

HERE, THERE = "here", "there"
NAMED = {MARKING: "{} marked", VALUE: "{}", SIGN: "{}, its number on the board"}
WHOLE = {ORDER: "Windings from the core outward", PORTS: "Ports"}
ABBREVIATED = {"x capacitor": "capacitor across the mains",
               "barrier capacitor": "capacitor across the barrier", "other": "part"}
MOST = 3                     # reasons named in one line


def sentence(reason: Reason, here: str = HERE, there: str = THERE) -> str:
    """`Primary controller marked UWK-12 in both.`, `Primary turns: 45 ± 2 here, 52 ± 2 there.`"""
    kind, _, about = reason.slot.partition("/")
    if kind == PHOTO:
        side = about.replace("_", " ")
        return f"Pictures of the {side} look alike: {reason.ours} {here}, {reason.theirs} {there}."
    name = slot_name(reason.slot)
    if reason.ours == reason.theirs:
        return f"{name}{' ' if kind == MARKING else ': '}{reason.ours} in both."
    return f"{name}: {reason.ours} {here}, {reason.theirs} {there}."


def in_short(reasons: Sequence[Reason]) -> str:
    """`the same primary controller, primary turns and winding order`: what weighs most."""
    names = list(dict.fromkeys(_short(one.slot) for one in reasons))[:MOST]
    if not names:
        return ""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def to_plain(reason: Reason) -> list:
    return [reason.slot, reason.ours, reason.theirs, reason.weight, list(reason.our_refs),
            list(reason.their_refs)]


def of_plain(row: Sequence) -> Reason:
    slot, ours, theirs, weight, our_refs, their_refs = row
    return Reason(slot, ours, theirs, weight, tuple(our_refs), tuple(their_refs))


def slot_name(slot: str) -> str:
    """What is compared: "Primary turns", "Primary controller marked"."""
    kind, _, about = slot.partition("/")
    if kind in WHOLE:
        return WHOLE[kind]
    if kind == SIZE:
        return QUANTITIES[about].label
    return NAMED[kind].format(_role(about)).capitalize()


def _short(slot):
    kind, _, about = slot.partition("/")
    if kind in WHOLE:
        return WHOLE[kind].lower() if kind == PORTS else "order of windings"
    if kind == SIZE:
        label = QUANTITIES[about].label
        return label[0].lower() + label[1:]
    if kind == PHOTO:
        return f"pictures of the {about.replace('_', ' ')}"
    return _role(about) if kind != SIGN else f"number of the {_role(about)}"


def _role(role):
    words = role.replace("_", " ")
    return ABBREVIATED.get(words, words)
