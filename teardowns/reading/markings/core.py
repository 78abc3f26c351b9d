"""Transformer cores: a family's letters and its sizes in millimetres, as in `EFD 15/8/5`.

Families are those of the IEC 63093 series and of makers' catalogues: EE, EF and E are all E cores
whose sizes tell them apart, so the letters stay as printed. Which area belongs to a size is no
matter of reading.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

# Longer names first, so that EEL16 is not read as EE with something behind it.
FAMILIES = (
    "EEL", "EER", "EFD", "EPC", "ETD", "EE", "EF", "EI", "EP", "EQ", "ER", "PQ", "RM", "E",
)  # fmt: skip
LARGEST = 100.0  # mm; no small transformer has a larger core
_GRADE = r"(?:[A-Z]{1,2}[0-9]{2})?"  # a ferrite grade glued before the family, as makers write it
_SIZE = r"[0-9]{1,3}(?:\.[0-9]{1,2})?"
_NAME = re.compile(
    rf"(?<![A-Z0-9]){_GRADE}(?P<family>{'|'.join(FAMILIES)})[ -]?"
    rf"(?P<sizes>{_SIZE}(?: ?[/X×*] ?{_SIZE}){{0,3}})(?![0-9])"
)
_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])")


@dataclass(frozen=True, slots=True)
class CoreName:
    """`PQ 26/20` is family PQ with the sizes 26 and 20 mm."""

    family: str
    sizes: tuple[float, ...]  # mm, as many as are printed

    def __str__(self) -> str:
        return f"{self.family} {'/'.join(f'{size:g}' for size in self.sizes)}"


def read_core(text: str) -> CoreName | None:
    """The core that a marking names; None where it names none, or two that differ."""
    found = {name for name in map(_name, _NAME.finditer(_plain(text))) if name}
    return found.pop() if len(found) == 1 else None


def _plain(text: str) -> str:
    return _COMMA.sub(".", text.upper())


def _name(match: re.Match[str]) -> CoreName | None:
    sizes = tuple(float(size) for size in re.findall(_SIZE, match["sizes"]))
    if not all(0.0 < size <= LARGEST for size in sizes):
        return None
    return CoreName(match["family"], sizes)
