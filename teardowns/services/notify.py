"""Tell people that something happened: one row a person, never who did it, never twice."""
from __future__ import annotations

from collections.abc import Iterable
from hashlib import sha256
from typing import Any

from django.db import transaction
from django.db.models import Count, OuterRef, Subquery
from django.db.models.functions import Coalesce
from django.utils import timezone

from core.accounts.models import User
from teardowns.models import Notice, NoticeKind, Unit

SLICE = 500                # rows a statement


def notify(people: Iterable[User | int | None], kind: str, *, actor: User | None = None,
           unit: Unit | int | None = None, subject: str = "", words: str = "",
           address: str = "", event: str = "") -> int:
    """Tell each of these people once; how many were asked to be told. Call it before `record`.

    people : accounts or their keys; None and repeated ones are left out, and so is the actor
    kind : of NoticeKind, whose words begin the line; `words` go on
    subject : "publication/3"; address : the page it leads to, by default the unit's
    event : names what happened, such as "publication/3": then nobody is told of it again, ever.
        Without it, the same words about the same thing are told again once they were read.
    """
    kind = NoticeKind(kind)
    unit_pk: Any = getattr(unit, "pk", unit)
    told = sorted({pk for pk in map(_key, people) if pk is not None} - {_key(actor)})
    mark = sha256("\x1f".join((kind, str(unit_pk), subject, event or words)).encode()).hexdigest()
    rows = [Notice(person_id=pk, kind=kind, unit_id=unit_pk, subject=subject, words=words[:500],
                   address=address, event=mark, is_once=bool(event)) for pk in told]
    Notice.objects.bulk_create(rows, SLICE, ignore_conflicts=True)
    transaction.on_commit(lambda: count_unread(told), robust=True)
    return len(rows)


def count_unread(people: Iterable[int]) -> None:
    """Renew the number that stands in the head of every page of these people."""
    unread = Notice.objects.filter(person=OuterRef("pk")).unread().order_by().values(
        "person").annotate(number=Count("pk")).values("number")
    for pk in people:               # one by one: many at once may wait for each other for ever
        User.objects.filter(pk=pk).update(unread_notices=Coalesce(Subquery(unread), 0))


def _key(person):
    return getattr(person, "pk", person)


def read_notices(*, person: User, pk: int | None = None, up_to: int | None = None) -> int:
    """Mark one notice of this person as read, or all of them; how many were unread.

    up_to : the newest that the page showed, so that none is marked that nobody saw
    """
    unread = Notice.objects.filter(person=person).unread()
    if pk is not None:
        unread = unread.filter(pk=pk)
    elif up_to is not None:
        unread = unread.filter(pk__lte=up_to)
    read = unread.update(read_at=timezone.now())
    count_unread([person.pk])
    return read
