"""Pages that the web processes of a host share: memory that was there before they were forked.

A page is made once for all of them, and a process that begins anew finds it. There is no lock, for
who dies while writing must stop nobody: a place that was half written, or written by two at once,
shows by its digest and counts as empty. Nothing of it lies on a disk.
"""
from __future__ import annotations

import struct
from hashlib import sha256
from mmap import mmap

PLACES, ROOM = 8192, 64 << 10       # …, bytes of each, taken from the machine as they are used
HEAD = struct.Struct("32sI")        # digest of what follows, and its length
MOST = ROOM - HEAD.size


class SharedPages:
    """Bytes by name, as many as there is room for; what shares a place with others may be gone."""

    def __init__(self, places: int = PLACES):
        self._memory, self._places = mmap(-1, places * ROOM), places      # shared, of no file

    def get(self, name: bytes) -> bytes | None:
        for at in self._two_places(name):
            content = self._read(at)
            if content is not None and content.startswith(name):
                return content[len(name):]
        return None

    def put(self, name: bytes, content: bytes) -> None:
        """Into the place that has it already or is empty, else into the first."""
        whole = name + content
        if len(whole) > MOST:
            return
        places = self._two_places(name)
        held = [self._read(at) for at in places]
        fitting = (at for at, kept in zip(places, held, strict=True)
                   if kept is None or kept.startswith(name))
        at = next(fitting, places[0])
        self._memory[at:at + HEAD.size + len(whole)] = HEAD.pack(
            sha256(whole).digest(), len(whole)) + whole

    def clear(self) -> None:
        for at in range(0, self._places * ROOM, ROOM):
            self._memory[at:at + HEAD.size] = bytes(HEAD.size)

    def _two_places(self, name):
        one, other = struct.unpack_from("II", sha256(name).digest())
        return one % self._places * ROOM, other % self._places * ROOM

    def _read(self, at):
        digest, length = HEAD.unpack_from(self._memory, at)
        if not 0 < length <= MOST:
            return None
        content = self._memory[at + HEAD.size:at + HEAD.size + length]
        return content if sha256(content).digest() == digest else None
