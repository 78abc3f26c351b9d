"""The letters that are at hand: what the typesetter carries, and what this machine has.

Our own is a file of two signs of rating plates, ⎓ and ⧈ (`.ci/make-signs` draws it). The
typesetter's package carries three families, Latin, Greek and Cyrillic among them; Debian's
fonts-dejavu-core adds signs and scripts, fonts-noto-core many scripts, fonts-noto-cjk Chinese,
Japanese and Korean. What none has is not set as an empty box: its code points stand in its place,
and a note says so.
"""
from __future__ import annotations

from functools import cache
from pathlib import Path

# In the order in which a character is looked for; those that are missing are passed over.
FAMILIES = ("Libertinus Serif", "DejaVu Serif", "DejaVu Sans", "Noto Serif CJK SC",
            "Noto Sans CJK SC", "Noto Sans", "Noto Sans Arabic", "Noto Sans Hebrew",
            "Noto Sans Devanagari", "Noto Sans Thai", "Noto Sans Symbols2", "DejaVu Sans Mono",
            "Underplate Signs")
OURS = Path(__file__).parents[2] / "static/fonts"
PLACES = (OURS, *(Path("/usr/share/fonts") / name for name in (
    "truetype/dejavu", "truetype/noto", "opentype/noto")))


def font_folders() -> list[str]:
    return [str(place) for place in PLACES if place.is_dir()]


@cache
def fonts_at_hand() -> tuple[str, ...]:
    """Name and size of each file, sorted: another set of fonts makes another document."""
    return tuple(sorted(f"{path.name} {path.stat().st_size}" for folder in font_folders()
                        for path in Path(folder).rglob("*.[ot]t[fc]")))
