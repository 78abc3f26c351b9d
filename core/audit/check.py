"""Follow the chain through the stored log, to its head."""
from core.audit.chain import BEGINNING, HASHED, Fault, first_fault
from core.audit.models import Entry, Head

SLICE = 2000        # entries in memory at a time


def check_log(sequence: int = 0, previous: str = BEGINNING) -> tuple[Fault | None, int, str]:
    """The first fault after a sound entry, or None; and number and hash of the last sound entry."""
    head = _head()
    fault, last, at = first_fault(_entries(sequence, head.sequence), sequence, previous)
    return fault or _fault_of_end(head, last, at), last, at


def _head():
    return Head.objects.filter(pk=1).first() or Head(hash=BEGINNING)


def _entries(sequence, end):
    """All that follow, without those that were added after the end was read."""
    later = Entry.objects.filter(sequence__gt=sequence).order_by("sequence")
    for entry in later.values(*HASHED, "hash").iterator(SLICE):
        if entry["sequence"] > end and Head.objects.filter(sequence__gte=entry["sequence"]):
            return
        yield entry


def _fault_of_end(head, last, at):
    if last < head.sequence:
        return Fault(last + 1, f"is missing: the log has {head.sequence} entries")
    if last > head.sequence:
        return Fault(head.sequence + 1, "was added past the end of the log")
    if at != head.hash:
        return Fault(last, "is not the entry that the end of the log names")
    return None
