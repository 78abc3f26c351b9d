"""A bag's own files: written, read strictly, and every byte of the bag held against them.

Stricter than BagIt asks: each line has one form, and a file that no manifest names is a fault.
"""
from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

NAME = re.compile(r"\d{4}-\d\d-\d\dT\d{6}Z")
WRITTEN = "%Y-%m-%dT%H%M%SZ"
LINE = re.compile(r"([0-9a-f]{64})  (\S(?:.*\S)?)")
DECLARATION = b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
MANIFEST, TAGS = "manifest-sha256.txt", "tagmanifest-sha256.txt"
PAYLOAD = "data"
BLOCK = 1 << 20
Progress = Callable[[str, int, int], None]          # what, how much is done, of how much


class Damaged(Exception):
    """A bag is not what was written; the message names the first file."""


def bag_name(at: datetime) -> str:
    return at.astimezone(UTC).strftime(WRITTEN)


def begun_at(bag: Path) -> datetime:
    return datetime.strptime(bag.name, WRITTEN).replace(tzinfo=UTC)


def bags(folder: Path) -> list[Path]:
    """Finished bags, the oldest first; one that is being made has another name."""
    if not folder.is_dir():
        return []
    return sorted(path for path in folder.iterdir()
                  if NAME.fullmatch(path.name) and (path / TAGS).is_file())


def newest_bag(folder: Path) -> Path | None:
    return next(reversed(bags(folder)), None)


def digest_of(path: Path) -> str:
    found = sha256()
    with path.open("rb") as file:
        while block := file.read(BLOCK):
            found.update(block)
    return found.hexdigest()


def write_tags(bag: Path, payload: dict[str, str], info: dict[str, str]) -> str:
    """The manifest and what describes the bag; SHA-256 of the last file, which vouches for all.

    payload : digest of each file, by its path within the bag
    """
    (bag / "bagit.txt").write_bytes(DECLARATION)
    (bag / "bag-info.txt").write_text("".join(f"{name}: {said}\n" for name, said in info.items()))
    (bag / MANIFEST).write_text(_lines(payload), "utf-8")
    tags = {name: digest_of(bag / name) for name in ("bag-info.txt", "bagit.txt", MANIFEST)}
    (bag / TAGS).write_text(_lines(tags), "utf-8")
    return digest_of(bag / TAGS)


def _lines(digests):
    return "".join(f"{digest}  {path}\n" for path, digest in sorted(digests.items()))


def read_manifest(bag: Path, name: str = MANIFEST) -> dict[str, str]:
    """Digest by path. Raises Damaged where a line is not as it was written."""
    try:
        text = (bag / name).read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise Damaged(f"{name} cannot be read.") from error
    found = {}
    for number, line in enumerate(text.removesuffix("\n").split("\n"), 1):
        parts = LINE.fullmatch(line)
        if parts is None or not text.endswith("\n"):
            raise Damaged(f"{name} is damaged at line {number}.")
        found[parts[2]] = parts[1]
    return found


def check_bag(bag: Path, say: Progress = lambda *_: None) -> str:
    """Read every byte. The digest that vouches for all; raises Damaged at the first fault."""
    tags = read_manifest(bag, TAGS)
    if set(tags) != {"bag-info.txt", "bagit.txt", MANIFEST}:
        raise Damaged(f"{TAGS} is damaged: it names other files than a backup has.")
    for name, digest in tags.items():
        _require(bag, name, digest)
    payload = read_manifest(bag)
    _require_none_else(bag, {*payload, *tags, TAGS})
    for number, (name, digest) in enumerate(sorted(payload.items()), 1):
        _require(bag, name, digest)
        say("Checked", number, len(payload))
    return digest_of(bag / TAGS)


def _require(bag, name, digest):
    path = bag / name
    if not path.resolve().is_relative_to(bag.resolve()) or not path.is_file():
        raise Damaged(f"{name} is missing.")
    try:
        found = digest_of(path)
    except OSError as error:
        raise Damaged(f"{name} cannot be read: {error.strerror}.") from error
    if found != digest:
        raise Damaged(f"{name} is damaged: its bytes are not those that were backed up.")


def _require_none_else(bag, named):
    for name in _files(bag):
        if name not in named:
            raise Damaged(f"{name} is in the backup and in no list of it.")


def _files(bag: Path) -> Iterator[str]:
    return (str(path.relative_to(bag)) for path in sorted(bag.rglob("*")) if not path.is_dir())
