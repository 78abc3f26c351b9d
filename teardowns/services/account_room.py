"""How much one account may keep: bytes of photos and logs, and sheets that are open at once.

Every account has the same room; a moderator gives some of them a multiple of it. Two files that
come at one moment may both fit where one would: the room is an order of size, no promise.
"""
from __future__ import annotations

from dataclasses import dataclass

from django.conf import settings
from django.db import transaction
from django.db.models import Sum
from django.http import Http404

from core.accounts.models import User
from core.audit.record import record
from teardowns.models import Photo, Recording, Status, Unit
from teardowns.workflow import NotNow

OPEN = (Status.DRAFT, Status.SENT_BACK)
TIMES = (1, 2, 5, 10, 20)               # of the usual room, that a moderator may give
ASK = "or ask a moderator for more room."
TOO_MANY_SHEETS = ("You have {most} open sheets, and no account has more at once: hand one in or "
                   f"discard one, {ASK}")


@dataclass(frozen=True)
class Room:
    bytes_kept: int
    bytes_most: int
    sheets_open: int
    sheets_most: int


def room_of(person: User) -> Room:
    return Room(bytes_kept(person), person.room * settings.ACCOUNT_BYTES, sheets_open(person),
                person.room * settings.ACCOUNT_SHEETS)


def bytes_kept(person: User) -> int:
    """Of every file that this person sent, taken down or not, for all are kept."""
    return sum(model.objects.filter(author=person).aggregate(n=Sum("byte_size"))["n"] or 0
               for model in (Photo, Recording))


def sheets_open(person: User) -> int:
    return Unit.objects.filter(contributor=person, status__in=OPEN).count()


def without_room(person: User, more: int) -> str:
    """Why a file of so many bytes more is not taken, and what helps; "" where there is room."""
    most = person.room * settings.ACCOUNT_BYTES
    if bytes_kept(person) + more <= most:
        return ""
    return (f"your photos and logs would be more than the {most / 1e9:.0f} GB that your account "
            f"may keep. Send a smaller copy, {ASK}")


def check_sheets(person: User) -> None:
    """Raises NotNow where no more sheets may be opened."""
    most = person.room * settings.ACCOUNT_SHEETS
    if sheets_open(person) >= most:
        raise NotNow(TOO_MANY_SHEETS.format(most=most))


@transaction.atomic
def give_room(*, moderator: User, person_pk: int, times: int) -> User:
    """So many times the usual room from now on. Raises Http404 or NotNow."""
    person = User.objects.select_for_update().filter(pk=person_pk, deleted_at=None).first()
    if person is None or person.pk == moderator.pk:
        raise Http404("No account that you may give more room.")
    if times not in TIMES:
        raise NotNow("Choose one of the sizes that are offered.")
    person.room = times
    person.save(update_fields=["room"])
    record(moderator, "room_given", subject=f"user/{person.pk}", times=times)
    return person
