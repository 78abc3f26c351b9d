"""Write one entry of the log, in the transaction of the change that it tells of."""
import json

from django.db import connection, transaction
from django.utils import timezone

from core import request_id
from core.audit.actions import ACTIONS
from core.audit.chain import BEGINNING, HASHED, entry_hash
from core.audit.models import Entry, Head


class UnknownAction(LookupError):
    """An action that `core.audit.actions` does not list."""


def record(actor, action: str, unit=None, subject: str = "", reason: str = "", **detail) -> Entry:
    """Add an entry to the chain; `detail` is JSON without personal data, for it is never erased.

    Raises UnknownAction, and TransactionManagementError outside a transaction: an entry and its
    change are kept together or not at all.

    Record last. The end of the chain is locked until the transaction ends, so whoever waits for
    a unit's lock while holding it waits, possibly, for somebody who waits for the chain.
    """
    if action not in ACTIONS:
        raise UnknownAction(action)
    _require_transaction()
    person = actor if actor is not None and actor.is_authenticated else None
    entry = Entry(
        at=timezone.now(), actor=person, role=person.role if person else "",
        in_role=person is not None and person.acts_in_role, action=action,
        unit=getattr(unit, "pk", unit), subject=subject, reason=reason,
        detail=json.loads(json.dumps(detail, allow_nan=False)),
        request_id=request_id.current.get())
    return _append(entry)


def _require_transaction():
    """A transaction of the caller's; the one that a test runs in does not count."""
    blocks = connection.atomic_blocks
    if not blocks or getattr(blocks[-1], "_from_testcase", False):
        raise transaction.TransactionManagementError(
            "An audit entry is recorded in the transaction of its change; open one.")


def _append(entry):
    if connection.vendor == "postgresql":
        # Checks of foreign keys lock rows; left to the commit they would do so under the head.
        connection.check_constraints()
    head, _ = Head.objects.select_for_update().get_or_create(pk=1, defaults={"hash": BEGINNING})
    entry.sequence, entry.previous = head.sequence + 1, head.hash
    entry.hash = entry_hash({name: getattr(entry, name) for name in HASHED})
    entry.save(force_insert=True)
    head.sequence, head.hash = entry.sequence, entry.hash
    head.save(update_fields=["sequence", "hash"])
    return entry
