"""The hash of an entry, and following the chain."""
import json
from datetime import UTC, datetime, timedelta, timezone
from hashlib import sha256

import pytest

from core.audit.chain import BEGINNING, HASHED, entry_hash, first_fault

AT = datetime(2026, 2, 28, 23, 59, 59, 5, UTC)


def entry(sequence=1, previous=BEGINNING, **other):
    fields = {"sequence": sequence, "at": AT, "actor_id": 7, "role": "moderator", "in_role": True,
              "action": "photo_covered", "unit": 3, "subject": "", "reason": "Straße", "detail": {},
              "request_id": "", "previous": previous} | other
    return fields | {"hash": entry_hash(fields)}


def chain(length):
    entries, previous = [], BEGINNING
    for sequence in range(1, length + 1):
        entries.append(entry(sequence, previous))
        previous = entries[-1]["hash"]
    return entries


def test_the_hash_is_sha_256_of_canonical_json():
    # Written out by hand: names sorted, no blanks, UTF-8, time in UTC to the microsecond.
    text = ('{"action":"photo_covered","actor_id":7,"at":"2026-02-28T23:59:59.000005+00:00",'
            '"detail":{},"in_role":true,"previous":"' + "0" * 64 + '","reason":"Straße",'
            '"request_id":"","role":"moderator","sequence":1,"subject":"","unit":3}')
    assert entry()["hash"] == sha256(text.encode()).hexdigest()


def test_a_time_is_the_same_in_every_zone():
    there = AT.astimezone(timezone(timedelta(hours=5, minutes=30)))
    assert entry(at=there)["hash"] == entry()["hash"]


@pytest.mark.parametrize("number", [1.0, 1e22, -0.0, 1e-7, 0.1, 2**53 + 1, 1e300])
def test_a_number_hashes_alike_however_a_database_writes_it(number):
    # PostgreSQL keeps JSON numbers as decimals and writes them out in digits.
    written = json.loads(f"{int(number)}" if float(number).is_integer() else repr(number))
    assert entry(detail={"n": [number]})["hash"] == entry(detail={"n": [written]})["hash"]


@pytest.mark.parametrize(("name", "value"), [
    ("at", AT + timedelta(microseconds=1)), ("actor_id", None), ("role", "reviewer"),
    ("in_role", False), ("action", "photo_received"), ("unit", None), ("subject", "photo/1"),
    ("reason", "Strasse"), ("detail", {"photo": "case"}), ("request_id", "a"), ("sequence", 2),
    ("previous", "1" * 64),
])
def test_every_field_counts(name, value):
    assert name in HASHED and entry(**{name: value})["hash"] != entry()["hash"]


def test_a_sound_chain_has_no_fault():
    entries = chain(5)
    assert first_fault(entries) == (None, 5, entries[-1]["hash"])
    assert first_fault([]) == (None, 0, BEGINNING)


def test_it_can_be_followed_from_an_entry_known_to_be_sound():
    entries = chain(5)
    assert first_fault(entries[3:], 3, entries[2]["hash"])[0] is None
    assert first_fault(entries[3:], 3, "1" * 64)[0].sequence == 4
