"""What was erased for good, kept beside the backups, so that a restore brings none of it back.

A kind of erasure says which there were, from the database, and how to do one again. The list holds
numbers of rows, nothing of what was erased. It is written at every backup; what was erased after
the last one is known to the lost database alone, and is erased again by hand.
"""
from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

LIST = "erasures.json"
Erased = dict[str, Any]             # what a kind needs to do it again; JSON


@dataclass(frozen=True)
class Kind:
    listed: Callable[[], Iterable[Erased]]
    repeat: Callable[[Erased], bool]            # whether something was left to erase


KINDS: dict[str, Kind] = {}


def register(name: str, listed: Callable[[], Iterable[Erased]],
             repeat: Callable[[Erased], bool]) -> None:
    KINDS[name] = Kind(listed, repeat)


def keep_erasures(folder: Path) -> None:
    """Add to the folder's list what was erased by now; nothing is ever taken off it."""
    found = read_erasures(folder / LIST)
    for name, kind in KINDS.items():
        known = found.setdefault(name, [])
        known += [each for each in kind.listed() if each not in known]
    aside = folder / f".{LIST}"
    aside.write_text(json.dumps(found, indent=1))
    os.replace(aside, folder / LIST)


def read_erasures(path: Path) -> dict[str, list[Erased]]:
    return json.loads(path.read_text()) if path.exists() else {}


def repeat_erasures(path: Path) -> tuple[int, list[str]]:
    """Erase again, in the restored database, what the list names: how much there was to erase, and
    what could not be and is left to do by hand.
    """
    done, left = 0, []
    for name, listed in read_erasures(path).items():
        for each in listed:
            try:
                done += KINDS[name].repeat(each)
            except Exception as error:          # one that fails must not keep the others
                left.append(f"{name} {json.dumps(each)}: {type(error).__name__}")
    return done, left
