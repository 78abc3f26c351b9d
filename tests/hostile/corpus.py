"""All hostile files for one run: ours, their spoilt variants, and the test pictures of Pillow.

Pillow's own (MIT-CMU) are read out of its source archive, which pip fetches into a folder of the
run; nothing of them is kept. The same seed makes the same files.
"""
from __future__ import annotations

import hashlib
import random
import subprocess
import sys
import tarfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from PIL import __version__ as PILLOW

from . import images
from . import logs as log_cases
from .names import NAMES
from .variants import spoilt_picture, spoilt_text

PHOTOS, LOGS = "photos", "recordings"
TO_SPOIL = 120_000              # bytes: what is spoilt is small, so that thousands are cheap


@dataclass(frozen=True)
class Sent:
    kind: str                   # PHOTOS or LOGS
    family: str
    name: str                   # as the sender calls it
    data: bytes
    verdicts: frozenset[str] = frozenset()      # what may become of it; empty: anything in words

    @property
    def sha256(self) -> str:
        return hashlib.sha256(self.data).hexdigest()


def corpus(pillow: Path | None, pictures: int, logs: int, seed: int = 0) -> list[Sent]:
    """Each content once: `pictures` and `logs` are how many variants are made."""
    own = [Sent(PHOTOS, family, f"{case.name}.jpg", case.data, case.verdicts)
           for family, case in images.cases()]
    theirs = list(of_pillow(pillow)) if pillow else []
    texts = [Sent(LOGS, "logs", f"{case.name}.csv", case.data) for case in log_cases.cases()]
    found = [*own, *theirs, *texts, *named(own, texts),
             *variants(PHOTOS, [*own, *theirs], spoilt_picture, pictures, seed),
             *variants(LOGS, texts, spoilt_text, logs, seed + 1)]
    return list({each.sha256: each for each in reversed(found)}.values())[::-1]


def named(own: list[Sent], texts: list[Sent]) -> Iterator[Sent]:
    """Sound files under names that are not; a byte behind the end makes each another file."""
    sound = next(each for each in own if each.verdicts == {"accepted"} and len(each.data) < 20_000)
    for number, name in enumerate(NAMES):
        yield Sent(PHOTOS, "names", name, sound.data + b"%d" % number)
        yield Sent(LOGS, "names", name, log_cases.PLAIN.encode() + b"%d.5,5.5,1.5\n" % (number + 6))


def variants(kind, sources, spoil, count, seed) -> Iterator[Sent]:
    draw = random.Random(seed)
    small = [each for each in sources if len(each.data) <= TO_SPOIL]
    for number in range(count):
        one, other = draw.choice(small), draw.choice(small)
        yield Sent(kind, "variants", f"spoilt-{number}-{one.name}"[:60],
                   spoil(draw, one.data, other.data))


def of_pillow(archive: Path) -> Iterator[Sent]:
    with tarfile.open(archive) as files:
        for member in files:
            folder = member.name.partition("/")[2]
            if member.isfile() and folder.startswith("Tests/images/"):
                data = files.extractfile(member).read()      # type: ignore[union-attr]
                yield Sent(PHOTOS, "Pillow's own", Path(member.name).name, data)


def fetched(folder: Path) -> Path:
    """Pillow's source archive of the version that is installed, through pip."""
    subprocess.run([sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--no-binary",
                    "pillow", "--dest", str(folder), f"pillow=={PILLOW}"], check=True)
    return next(folder.glob("pillow-*.tar.gz"))


def counted(files: Iterable[Sent]) -> dict[str, int]:
    counts: dict[str, int] = {}
    for each in files:
        counts[f"{each.kind}: {each.family}"] = counts.get(f"{each.kind}: {each.family}", 0) + 1
    return counts
