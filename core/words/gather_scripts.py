"""Texts of scripts: what is handed to `say("…")`, in plain quotes."""
from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

SAID = re.compile(r"\bsay\(\s*(\"(?:[^\"\\]|\\.)*\")")


def texts_of_script(path: Path) -> Iterator[str]:
    for found in SAID.finditer(path.read_text()):
        yield json.loads(found[1])
