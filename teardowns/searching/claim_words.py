"""A rating as one word, so that equal claims of two plates are the same word of an index."""
from __future__ import annotations

from typing import Any

RATINGS = ("output", "total")


def claim_words(kind: str, low: float | None, high: float | None, current: float | None,
                power: float | None) -> list[str]:
    """Volts with amperes, and watts, of an output; the input is nearly the same on all plates.

    >>> claim_words("output", 20, 20, 3.25, 65), claim_words("output", 3.3, 11, 5, None)
    (['20v3.25a', '65w'], ['3.3to11v5a'])
    """
    if kind not in RATINGS:
        return []
    found = []
    if high is not None and current is not None:
        volts = f"{high:g}v" if low in (None, high) else f"{low:g}to{high:g}v"
        found.append(f"{volts}{current:g}a")
    return found + ([f"{power:g}w"] if power is not None else [])


def of_claim(claim: Any) -> list[str]:
    """The words of one claim that a plate was read into (`reading.plates`)."""
    low = claim.voltage if claim.voltage_low is None else claim.voltage_low
    high = claim.voltage if claim.voltage_high is None else claim.voltage_high
    return claim_words(claim.kind, low, high, claim.current,
                       claim.power if claim.power_stated else None)


def in_print(word: str) -> str:
    """A claim word as people write it.

    >>> in_print("20v3.25a"), in_print("3.3to11v5a"), in_print("65w")
    ('20 V 3.25 A', '3.3–11 V 5 A', '65 W')
    """
    spaced = word.replace("to", "–").replace("v", " V ").replace("a", " A").replace("w", " W")
    return spaced.strip()
