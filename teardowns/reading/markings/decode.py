"""One door to the decoders: the kind of component decides how its marking is read.

"104K" is 100 nF ±10 % on a capacitor and nothing else, so the kind always comes first.
"""

from __future__ import annotations

from collections.abc import Callable

from teardowns.reading.markings.capacitor import decode_capacitor
from teardowns.reading.markings.decoding import Decoding, MarkingError
from teardowns.reading.markings.electrolytic import decode_electrolytic
from teardowns.reading.markings.fuse import decode_fuse
from teardowns.reading.markings.inductor import decode_inductor
from teardowns.reading.markings.resistor import decode_resistor
from teardowns.reading.markings.safety_capacitor import decode_safety_capacitor

MAX_LENGTH = 200

KINDS: dict[str, Callable[[str], Decoding]] = {
    "capacitor": decode_capacitor,
    "electrolytic_capacitor": decode_electrolytic,
    "fuse": decode_fuse,
    "inductor": decode_inductor,
    "resistor": decode_resistor,
    "safety_capacitor": decode_safety_capacitor,
}


def decode_marking(kind: str, text: str) -> Decoding:
    """Decode the marking of a component of this kind.

    Text that is no known code comes back in `unread` with value None. Raises MarkingError for an
    unknown kind, an empty marking, or one longer than a component can carry.
    """
    if kind not in KINDS:
        raise MarkingError(f"“{kind}” has no marking code: choose one of {', '.join(KINDS)}.")
    if not isinstance(text, str) or not text.strip():
        raise MarkingError("The marking is empty: write what is printed, or choose “not readable”.")
    if len(text) > MAX_LENGTH:
        raise MarkingError(
            f"This marking is longer than {MAX_LENGTH} characters: write one component at a time."
        )
    return KINDS[kind](text)
