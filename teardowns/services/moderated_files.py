"""Files of a record for a moderator: where else the same file was sent, and by whom."""
from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from typing import Any, NamedTuple

from django.db import transaction
from django.db.models import Count
from django.http import Http404

from core.accounts.models import User
from core.audit.record import record
from teardowns import access
from teardowns.models import Photo, Recording

from .state_reasons import NoReason

SAY_WHY = ("Say why you need the file as it came in: it may hold what nobody else is to see. The "
           "reason goes into the log.")
KINDS: dict[str, Any] = {"photo": Photo, "recording": Recording}


class Elsewhere(NamedTuple):
    """The same file in another record."""

    sha256: str
    unit: int
    sender: int
    name: str


def files_of(unit_pk: int) -> list[Any]:
    """Photos and logs of a record, the oldest first, each with who sent it. Two queries."""
    return [file for model in KINDS.values()
            for file in model.objects.filter(unit=unit_pk).select_related("author").order_by("pk")]


def same_elsewhere(unit_pk: int, files: Iterable[Any]) -> dict[str, list[Elsewhere]]:
    """By SHA-256, the other records that the same bytes were sent to. Two queries."""
    digests = {one.sha256 for one in files} - {""}
    found = defaultdict(list)
    for model in KINDS.values():
        for row in model.objects.filter(sha256__in=digests).exclude(unit=unit_pk).order_by(
                "pk").values_list("sha256", "unit", "author", "author__username"):
            found[row[0]].append(Elsewhere(*row))
    return dict(found)


def accounts_with_same_files(person_pk: int) -> list[tuple[int, str, int]]:
    """Other accounts that sent files of this one: account, name and how many. Two queries."""
    counted: Counter[tuple[int, str]] = Counter()
    for model in KINDS.values():
        own = model.objects.filter(author=person_pk).exclude(sha256="").values("sha256")
        others = model.objects.filter(sha256__in=own).exclude(author=person_pk).order_by()
        for pk, name, n in others.values_list("author", "author__username").annotate(
                n=Count("sha256", distinct=True)):
            counted[pk, name] += n
    return sorted(((pk, name, n) for (pk, name), n in counted.items()),
                  key=lambda one: (-one[2], one[1]))


@transaction.atomic
def see_original(*, moderator: User, unit_pk: int, kind: str, key: str, reason: str) -> Any:
    """The photo or log whose file as it came in the moderator may read now; the log says why.

    Raises Http404, or NoReason.
    """
    access.unit_to_moderate(moderator, unit_pk)
    model = KINDS.get(kind)
    found = model and model.objects.filter(unit=unit_pk, key=key).first()
    if not found:
        raise Http404("No such file.")
    if not reason.strip():
        raise NoReason(SAY_WHY)
    record(moderator, "original_seen", unit=unit_pk, subject=f"{kind}/{found.pk}",
           reason=reason.strip())
    return found
