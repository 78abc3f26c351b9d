"""A file spoilt by chance, the same chance each time: bits, cuts, splices, lengths, checksums."""
import random
import re
import zlib

from .building import PNG_MAGIC

NUMBERS = (b"\0\0\0\0", b"\xff\xff\xff\xff", b"\x7f\xff\xff\xff", b"\x80\0\0\0", b"\0\0\0\1")
MAGICS = (b"\xff\xd8\xff\xe0", PNG_MAGIC, b"RIFF\xff\xff\xff\x7fWEBP", b"\0\0\0\x20ftypavif",
          b"GIF89a", b"%PDF-1.4\n", b"PK\3\4", b"<svg ", b"MM\0*")
CELLS = ("=1+1", "NaN", "1e999", "-", "", "5,06", "1.234", "\u202e60.5", "٣", '"', "\0", "#DIV/0!",
         "05-Jan", "9" * 300, "5V", ",,", "\ufeff", "−5", "1_000", "0x10", "'", ";", "\t7")
CODECS = ("utf-16", "utf-16-le", "utf-16-be", "utf-8-sig", "cp1252", "utf-32", "utf-7")
BREAKS = ("\r", "\r\n", "\n\n", "\u2028", "\x0b", "\x1e")


def spoilt_picture(draw: random.Random, data: bytes, other: bytes) -> bytes:
    """`data` after one to three tricks, some of them with a piece of `other`."""
    for _ in range(draw.randint(1, 3)):
        data = draw.choice(TRICKS)(draw, data, other)
    return data


def spoilt_text(draw: random.Random, data: bytes, other: bytes) -> bytes:
    """A log with other cells, lines, line ends or bytes."""
    if draw.random() < 0.2:
        return spoilt_picture(draw, data, other)
    lines = data.decode("utf-8", "replace").splitlines(keepends=True) or ["\n"]
    for _ in range(draw.randint(1, 4)):
        draw.choice((_other_cell, _moved_line, _cut_line))(draw, lines)
    text = "".join(lines)
    if draw.random() < 0.15:
        text = text.replace("\n", draw.choice(BREAKS))
    return text.encode(draw.choice(CODECS) if draw.random() < 0.15 else "utf-8", "replace")


def _bits(draw, data, other):
    spoilt = bytearray(data)
    for _ in range(draw.choice((1, 1, 2, 8, 64)) if spoilt else 0):
        spoilt[draw.randrange(len(spoilt))] ^= 1 << draw.randrange(8)
    return bytes(spoilt)


def _cut(draw, data, other):
    return data[:draw.randint(0, len(data))]


def _hole(draw, data, other):
    start = draw.randint(0, len(data))
    return data[:start] + data[start + draw.choice((1, 2, 7, 64, 500)):]


def _splice(draw, data, other):
    return data[:draw.randint(0, len(data))] + other[draw.randint(0, len(other)):]


def _behind(draw, data, other):
    return data + other


def _said_again(draw, data, other):
    start = draw.randint(0, len(data))
    piece = data[start:start + draw.choice((4, 60, 900))]
    return data[:start] + piece * draw.choice((2, 3, 40)) + data[start:]


def _zeros(draw, data, other):
    start, length = draw.randint(0, len(data)), draw.choice((4, 64, 4096))
    return data[:start] + b"\0" * length + data[start + length:]


def _number(draw, data, other):
    start = draw.randint(0, min(len(data), 600))
    return data[:start] + draw.choice(NUMBERS) + data[start + 4:]


def _other_magic(draw, data, other):
    magic = draw.choice(MAGICS)
    return magic + data[len(magic) if draw.random() < 0.5 else 0:]


def _right_sums(draw, data, other):
    """Bits of a PNG, with checksums that agree again, so that the damage reaches a decoder."""
    return with_right_sums(_bits(draw, data, other))


def with_right_sums(data: bytes) -> bytes:
    at, kept = 8, bytearray(data)
    while data.startswith(PNG_MAGIC) and at + 12 <= len(kept):
        end = at + 8 + int.from_bytes(kept[at:at + 4], "big")
        if end + 4 > len(kept):
            break
        kept[end:end + 4] = zlib.crc32(kept[at + 4:end]).to_bytes(4, "big")
        at = end + 4
    return bytes(kept)


TRICKS = (_bits, _bits, _cut, _hole, _splice, _behind, _said_again, _zeros, _number, _other_magic,
          _right_sums, _right_sums)


def _other_cell(draw, lines):
    place = draw.randrange(len(lines))
    cells = re.split("([,;\t])", lines[place])
    cells[draw.randrange(len(cells))] = draw.choice(CELLS)
    lines[place] = "".join(cells)


def _moved_line(draw, lines):
    lines.insert(draw.randint(0, len(lines)), lines[draw.randrange(len(lines))])


def _cut_line(draw, lines):
    place = draw.randrange(len(lines))
    lines[place] = lines[place][:draw.randint(0, len(lines[place]))]
