"""What a walk through a file's structure finds, and bounded reading of the file."""
import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import BinaryIO

from teardowns.imaging.limits import MAX_STEPS
from teardowns.imaging.refusals import corrupt, too_complex

BLOCK = 1 << 20
ZEROS = -1                           # in place of an offset: so many bytes of nothing
Piece = tuple[int, int] | bytes      # (offset, length) in the file, or bytes that replace some


@dataclass(frozen=True)
class Found:
    width: int                       # px, as stored, before the orientation is applied
    height: int
    orientation: int                 # 1 to 8, as EXIF numbers them
    removed: tuple[str, ...]         # what is inside beside the picture, in words for people
    pieces: tuple[Piece, ...] = field(repr=False)    # all that a decoder is given
    profile: tuple[Piece, ...] = field(repr=False, default=())    # of colours, in the file
    profile_packed: bool = False     # deflated


class Source:
    """A file read by offset; asking for bytes behind its end means that it was cut off."""

    def __init__(self, file: BinaryIO, size: int):
        self.file, self.size, self.steps = file, size, MAX_STEPS

    def read(self, offset: int, length: int) -> bytes:
        if length < 0 or offset + length > self.size:
            raise corrupt("it was cut off before its end")
        self.file.seek(offset)
        data = self.file.read(length)
        if len(data) != length:
            raise corrupt("it was cut off before its end")
        return data

    def spend(self, steps: int) -> None:
        """Counts the steps of walks that branch; too many in all are refused."""
        self.steps -= steps
        if self.steps < 0:
            raise too_complex(f"more than {MAX_STEPS} boxes and links")

    def number(self, offset: int, length: int, order="big") -> int:
        return int.from_bytes(self.read(offset, length), order)

    def find(self, pattern: re.Pattern, start: int, overlap: int) -> int:
        """Offset of the first match at or behind start, or -1; overlap is its length less one."""
        while start < self.size:
            block = self.read(start, min(BLOCK, self.size - start))
            match = pattern.search(block)
            if match:
                return start + match.start()
            if start + len(block) >= self.size:
                break
            start += len(block) - overlap
        return -1


def joined(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """The same bytes in fewer pieces: neighbours in the file become one."""
    out: list[Piece] = []
    for piece in pieces:
        last = out[-1] if out else None
        if isinstance(piece, tuple) and isinstance(last, tuple) and sum(last) == piece[0]:
            out[-1] = (last[0], last[1] + piece[1])
        else:
            out.append(piece)
    return tuple(out)


def in_order(words: Iterable[str]) -> tuple[str, ...]:
    """Each word once, in the order in which it was first met."""
    return tuple(dict.fromkeys(words))
