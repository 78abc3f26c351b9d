"""Limits that people write where an instrument shows no value: “> 500 MΩ”, “less than 0.1 W”."""

from __future__ import annotations

import re

# Kind -> its sign; the kinds are the words of the exchange form.
SIGNS = {"above": ">", "at_least": "≥", "below": "<", "at_most": "≤"}
_WRITTEN = {
    ">": "above", "<": "below",
    "≥": "at_least", ">=": "at_least", "=>": "at_least", "⩾": "at_least",
    "≤": "at_most", "<=": "at_most", "=<": "at_most", "⩽": "at_most",
    "more than": "above", "over": "above", "above": "above", "at least": "at_least",
    "less than": "below", "under": "below", "below": "below", "at most": "at_most",
    "mehr als": "above", "über": "above", "mindestens": "at_least",
    "weniger als": "below", "unter": "below", "höchstens": "at_most",
}  # fmt: skip
_BOUND = re.compile(
    rf"({'|'.join(sorted(map(re.escape, _WRITTEN), key=len, reverse=True))}) ?(?=[0-9.,+−-])(.*)",
    re.IGNORECASE,
)


def split_bound(text: str) -> tuple[str, str]:
    """(kind, the rest) of a limit; ("", text) of anything else."""
    found = _BOUND.fullmatch(text)
    return (_WRITTEN[found[1].lower()], found[2]) if found else ("", text)
