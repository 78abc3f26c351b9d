"""The chain that ties every entry of the log to the one before it: a hash, and nothing else."""
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC
from hashlib import sha256
from typing import Any

BEGINNING = "0" * 64            # what the first entry names as the one before it
HASHED = ("sequence", "at", "actor_id", "role", "in_role", "action", "unit", "subject", "reason",
          "detail", "request_id", "previous")


@dataclass(frozen=True)
class Fault:
    sequence: int       # of the first entry that does not hold
    reason: str


def entry_hash(entry: Mapping[str, Any]) -> str:
    """SHA-256, in hex, of the canonical JSON of an entry's fields, the previous hash among them.

    Raises UnicodeEncodeError for half a surrogate pair and ValueError for NaN: neither survives
    every database.
    """
    fields = {name: entry[name] for name in HASHED}
    fields["at"] = fields["at"].astimezone(UTC).isoformat(timespec="microseconds")
    text = json.dumps(_plain(fields), ensure_ascii=False, sort_keys=True, allow_nan=False,
                      separators=(",", ":"))
    return sha256(text.encode()).hexdigest()


def _plain(value):
    """Whole floats as integers: one database answers 1e+22 as it came, the other in digits."""
    if isinstance(value, dict):
        return {name: _plain(item) for name, item in value.items()}
    if isinstance(value, list):
        return [_plain(item) for item in value]
    if isinstance(value, float) and value.is_integer():
        return int(value)
    return value


def first_fault(entries: Iterable[Mapping[str, Any]], sequence: int = 0,
                previous: str = BEGINNING) -> tuple[Fault | None, int, str]:
    """Follow the chain: its first fault or None, and the number and hash of the last sound entry.

    `sequence` and `previous` are those of an entry known to be sound, which `entries` follow.
    """
    for entry in entries:
        if entry["sequence"] != sequence + 1:
            return Fault(sequence + 1, f"is missing: entry {entry['sequence']} stands there"
                         ), sequence, previous
        if entry["previous"] != previous:
            return Fault(sequence + 1, "does not follow from the entry before it"
                         ), sequence, previous
        if entry["hash"] != entry_hash(entry):
            return Fault(sequence + 1, "was changed after it was written"), sequence, previous
        sequence, previous = sequence + 1, entry["hash"]
    return None, sequence, previous
