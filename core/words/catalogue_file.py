"""The file of a catalogue, as `gather_words` makes it: gettext's `.mo`."""
from __future__ import annotations

import struct
from collections.abc import Iterator
from pathlib import Path


def read_translations(file: Path) -> dict[str, str]:
    """Each text and its translation.

    polib reads the same in eight times the time, and a process begins with this.
    """
    data = file.read_bytes()
    count, texts, translations = struct.unpack_from("<8xIII", data)
    pairs = zip(_strings(data, count, texts), _strings(data, count, translations), strict=True)
    return {text: translation for text, translation in pairs if text}     # "" is the file's head


def _strings(data: bytes, count: int, table: int) -> Iterator[str]:
    for length, start in struct.iter_unpack("<II", data[table:table + 8 * count]):
        yield data[start:start + length].decode()
