"""A long text in pieces of whole lines, of which no more than one is in memory."""
from __future__ import annotations

import codecs
from dataclasses import dataclass
from typing import BinaryIO

import numpy as np

from teardowns.logs.limits import LONGEST_BLANK, LONGEST_LINE
from teardowns.logs.refusals import RefusedLog

BLOCK = 1 << 20              # bytes
_WIDE = {"utf-16-le": "<u2", "utf-16-be": ">u2", "utf-32-le": "<u4", "utf-32-be": ">u4"}
_TAIL = 4096                 # characters
_MARK = "\ufeff"
_LINE_FEED, _RETURN, _BLANK = 10, 13, 32


@dataclass(frozen=True, slots=True)
class Block:
    text: bytes               # whole lines, "\n" at their ends, in `encoding`
    encoding: str             # one in which ASCII stands as ASCII
    line: int                 # of the first one
    end: int                  # offset in the file behind it
    is_last: bool

    @property
    def lines(self) -> int:
        return self.text.count(b"\n") + bool(self.text and not self.text.endswith(b"\n"))


def next_block(source: BinaryIO, offset: int, line: int, size: int, encoding: str,
               most: int = BLOCK) -> Block:
    """The lines from `offset` on, which is the start of line `line`, and not the end of the file.

    Reads about `most` bytes and as many more as the first line needs. A block ends before a line
    that is not empty, so that neither a pair of line ends nor a run of empty lines is torn.
    """
    encoding = _known(encoding)
    dtype = np.dtype(_WIDE.get(encoding, "u1"))
    source.seek(offset)
    data, cut = b"", 0
    while not cut:
        more = source.read(min(max(most, dtype.itemsize, len(data)), size - offset - len(data)))
        if not more:
            raise EOFError(f"The stored log ends at byte {offset + len(data)}, not at {size}.")
        data += more
        is_last = offset + len(data) == size
        cut = len(data) if is_last else _cut(data, dtype, line)
    text, encoding = _as_ascii_lines(data[:cut], encoding, offset == 0)
    return Block(text, encoding, line, offset + cut, is_last)


def _known(encoding):
    try:
        return codecs.lookup(encoding).name.replace("utf-8-sig", "utf-8")
    except LookupError:
        raise RefusedLog("encoding", f"The encoding “{encoding}” is not known: choose another "
                         "one, UTF-8 if in doubt.") from None


def _cut(data, dtype, line):
    """Bytes up to the last line end that a filled line follows; 0 where there is none yet."""
    codes = np.frombuffer(data, dtype, len(data) // dtype.itemsize)
    for start in (max(len(codes) - _TAIL, 0), 0):       # nearly always it is near the end
        filled = np.flatnonzero(codes[start:] > _BLANK)
        ends = np.flatnonzero((codes[start:] == _LINE_FEED) | (codes[start:] == _RETURN))
        before = int(np.searchsorted(ends, filled[-1])) if len(filled) else 0
        if before:
            return (start + int(ends[before - 1]) + 1) * dtype.itemsize
    if len(codes) - (filled[0] if len(filled) else 0) > LONGEST_LINE and not len(ends):
        raise line_too_long(line)
    if len(data) > LONGEST_BLANK:
        raise RefusedLog("empty_lines", "From here on a megabyte holds nothing but empty lines: "
                         "delete them, and what follows them if it is another log.", line)
    return 0


def line_too_long(line: int) -> RefusedLog:
    return RefusedLog("line_too_long", f"The line is longer than {LONGEST_LINE} characters: this "
                      "is no table of readings. Export it with one row of readings a line.", line)


def _as_ascii_lines(data, encoding, is_first):
    if encoding in _WIDE:
        data = data.decode(encoding, "replace").encode("utf-8", "replace")
        encoding = "utf-8"
    if is_first and encoding == "utf-8":
        data = data.removeprefix(_MARK.encode())
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    return data, encoding
