"""Whoever changes the tables directly is found, at the first entry that does not hold."""
import pytest
from django.db import transaction
from django.db.models import F

from core.audit import check
from core.audit.chain import BEGINNING, HASHED, entry_hash, first_fault
from core.audit.check import check_log
from core.audit.models import Entry, Head
from core.audit.record import record
from tests.core.audit.test_chain import chain, entry

pytestmark = pytest.mark.django_db
MANY = 1000
CHANGES = [{"reason": "Another"}, {"actor": None}, {"unit": 99}, {"action": "photo_covered"},
           {"detail": {"section": "case"}}, {"in_role": False}, {"role": "moderator"},
           {"subject": "unit/1"}, {"request_id": "f" * 32}, {"hash": "f" * 64}]


def log_of(actor, length):
    with transaction.atomic():
        return [record(actor, "section_saved", unit=number % 9 + 1, section="ports", number=number)
                for number in range(1, length + 1)]


class Undone(Exception):
    """Ends a tampering, of which nothing shall stay."""


def found(tamper, *about, after=None):
    """Where the check finds what was tampered with, from a sound entry on; undoes it then."""
    sound = (after.sequence, after.hash) if after else (0, BEGINNING)
    try:
        with transaction.atomic():
            tamper(*about)
            fault = check_log(*sound)[0]
            raise Undone
    except Undone:
        return fault and fault.sequence


def at(sequence):
    return Entry.objects.filter(sequence=sequence)


def change(number):
    at(number).update(**CHANGES[number % len(CHANGES)])


def remove(number):
    at(number).delete()


def swap(one, other=None):
    other = other or one % MANY + 1
    at(one).update(sequence=0)
    at(other).update(sequence=one)
    at(0).update(sequence=other)


def insert(number, forged=False):
    """A copy of an entry in its place, the others moved on; a forged one carries its right hash."""
    copy = at(number).get()
    Entry.objects.filter(sequence__gte=number).update(sequence=-F("sequence") - 1)
    Entry.objects.filter(sequence__lt=0).update(sequence=-F("sequence"))
    copy.pk, copy.reason = None, "Inserted"
    if forged:
        copy.hash = entry_hash({name: getattr(copy, name) for name in HASHED})
    copy.save()


def test_each_of_a_thousand_entries_is_missed_when_it_is_tampered_with(alice, monkeypatch):
    monkeypatch.setattr(check, "SLICE", 4)
    log = log_of(alice, MANY)
    for before, tampered in zip([None, *log], log, strict=False):
        number = tampered.sequence
        # An insertion moves all that follow, so only some places are tried in the tables.
        way = (change, remove, swap)[number % 3] if number % 40 else insert
        # The last and the first exchanged: the check that begins before the first finds it there.
        first, after = (1, None) if way is swap and number == MANY else (number, before)
        assert found(way, number, after=after) == first
    assert check_log() == (None, MANY, log[-1].hash)


def test_each_way_is_found_at_each_of_a_thousand_places():
    sound = chain(MANY)
    for place, before in enumerate([{"sequence": 0, "hash": BEGINNING}, *sound[:-1]]):
        here, after = sound[place], sound[place + 1:place + 2]
        inserted = entry(here["sequence"], here["previous"], reason="Inserted")
        tampered = [[here | {"reason": "Another"}], [inserted | {"hash": "0" * 64}]]
        if after:           # what is cut off or added at the end, the head tells
            tampered += [after, [*after, here]]
        for entries in tampered:
            fault = first_fault(entries, before["sequence"], before["hash"])[0]
            assert fault is not None and fault.sequence == here["sequence"]


@pytest.mark.parametrize("place", [1, 2, 14, 30])
def test_a_forged_entry_that_follows_well_is_found_by_what_comes_after(alice, place):
    log_of(alice, 30)
    assert found(insert, place, True) == place + 1
    assert found(insert, place) == place


def test_a_forged_entry_at_the_end_is_found_by_the_head(alice):
    last = log_of(alice, 3)[-1]

    def add():
        forged = at(3).get()
        forged.pk, forged.sequence, forged.previous = None, 4, last.hash
        forged.hash = entry_hash({name: getattr(forged, name) for name in HASHED})
        forged.save()

    assert found(add) == 4


def test_a_log_that_was_cut_off_or_whose_end_was_moved_is_found(alice):
    log_of(alice, 5)
    assert found(remove, 5) == 5
    assert found(lambda: Entry.objects.all().delete()) == 1
    assert found(lambda: Head.objects.all().delete()) == 1
    assert found(lambda: Head.objects.update(hash="f" * 64)) == 5
    assert found(lambda: Head.objects.update(sequence=4)) == 5


def test_an_untouched_log_is_sound_and_so_is_an_empty_one(alice):
    assert check_log() == (None, 0, BEGINNING)
    last = log_of(alice, 7)[-1]
    assert check_log() == (None, 7, last.hash)


def test_what_is_added_while_the_check_runs_is_left_alone(alice, monkeypatch):
    log_of(alice, 3)
    head = Head.objects.get()
    log_of(alice, 2)
    monkeypatch.setattr(check, "_head", lambda: head)
    assert check_log() == (None, 3, head.hash)
