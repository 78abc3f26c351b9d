"""Rows of evidence named in a text: `12/component/q1` is the row q1 of unit 12."""
from __future__ import annotations

import re
from typing import NamedTuple

KINDS = ("printedtext", "claim", "port", "component", "stacklayer", "insulationobservation",
         "measurement", "photo", "recording")
PATTERN = re.compile(rf"(?<![\w/])([0-9]{{1,9}})/({'|'.join(KINDS)})/([\w-]{{1,64}})")


class EvidenceRef(NamedTuple):
    unit: int
    kind: str
    key: str

    @property
    def text(self) -> str:
        return f"{self.unit}/{self.kind}/{self.key}"


def evidence_refs(text: str) -> list[EvidenceRef]:
    """Each row that the text names, once, in its order."""
    found = [EvidenceRef(int(unit), kind, key) for unit, kind, key in PATTERN.findall(text)]
    return list(dict.fromkeys(found))
