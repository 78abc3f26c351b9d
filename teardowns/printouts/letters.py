"""Letters for pictures that Pillow draws: each character in the first font at hand that has it."""
from __future__ import annotations

from functools import cache
from pathlib import Path

from PIL import ImageDraw, ImageFont

# Of Debian's fonts-dejavu-core, then fonts-noto-cjk; without either the face that Pillow carries.
FILES = {
    "serif": ("truetype/dejavu/DejaVuSerif-Bold.ttf", "opentype/noto/NotoSerifCJK-Bold.ttc"),
    "sans": ("truetype/dejavu/DejaVuSans.ttf", "opentype/noto/NotoSansCJK-Regular.ttc"),
    "bold": ("truetype/dejavu/DejaVuSans-Bold.ttf", "opentype/noto/NotoSansCJK-Bold.ttc"),
}
FOLDER = Path("/usr/share/fonts")
NOWHERE = "\U0010fffe"           # a character that no font has
Font = ImageFont.FreeTypeFont
Piece = tuple[str, Font]


@cache
def fonts(face: str, size: int) -> tuple[Font, ...]:
    paths = [FOLDER / name for name in FILES[face]]
    found = [ImageFont.truetype(str(path), size) for path in paths if path.is_file()]
    return (*found, ImageFont.load_default(size))


def pieces(text: str, face: str, size: int) -> list[Piece]:
    """The text cut where the font changes; what no font has is told by its code point."""
    found: list[Piece] = []
    for character in text:
        font = _font_of(character, face, size)
        shown = character if font else f"[U+{ord(character):04X}]"
        font = font or fonts(face, size)[0]
        if found and found[-1][1] is font:
            found[-1] = (found[-1][0] + shown, font)
        else:
            found.append((shown, font))
    return found


@cache
def _font_of(character, face, size):
    if character.isspace():
        return fonts(face, size)[0]
    return next((font for font in fonts(face, size) if _has(font, character)), None)


def _has(font, character):
    """Whether it draws something else than what it draws for a character that it lacks."""
    lacking, drawn = font.getmask(NOWHERE), font.getmask(character)
    return (drawn.size, bytes(drawn)) != (lacking.size, bytes(lacking)) and drawn.size[0] > 0


def width_of(text: str, face: str, size: int) -> float:
    return sum(font.getlength(part) for part, font in pieces(text, face, size))


def wrapped(text: str, face: str, size: int, width: float, most: int) -> list[str]:
    """Lines no wider than this; beyond the last one a sign that there is more."""
    lines: list[str] = [""]
    for word in text.replace("\u202f", " ").split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and width_of(longer, face, size) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    if len(lines) > most:
        lines = [*lines[:most - 1], f"{lines[most - 1]} …"]
    return [_cut(line, face, size, width) for line in lines]


def _cut(line, face, size, width):
    """A single word may be wider than the line."""
    while len(line) > 1 and width_of(line, face, size) > width:
        line = f"{line.removesuffix('…')[:-1].rstrip()}…"
    return line


def write(canvas: ImageDraw.ImageDraw, at: tuple[float, float], text: str, face: str, size: int,
          fill: str) -> float:
    """Write one line, its base line at this point; where it ends."""
    x, y = at
    for part, font in pieces(text, face, size):
        canvas.text((x, y), part, font=font, fill=fill, anchor="ls")
        x += font.getlength(part)
    return x
