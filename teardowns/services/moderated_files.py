"""Files of a record for a moderator: where else the same file was sent, and by whom."""
from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from typing import Any, NamedTuple

from django.db import transaction
from django.db.models import F, Q, QuerySet
from django.http import Http404

from core.accounts.models import User
from core.audit.record import record
from teardowns import access
from teardowns.models import Photo, Recording

from .state_reasons import NoReason

SAY_WHY = ("Say why you need the file as it came in: it may hold what nobody else is to see. The "
           "reason goes into the log.")
KINDS: dict[str, Any] = {"photo": Photo, "recording": Recording}
SHOWN = 60              # files, and elsewheres of them


class Elsewhere(NamedTuple):
    """The same file in another record."""

    sha256: str
    unit: int
    sender: int
    name: str


def files_of(unit_pk: int) -> list[Any]:
    """Photos and logs of a record, the oldest first, each with who sent it. Two queries."""
    return [*Photo.objects.filter(unit=unit_pk).select_related("author").order_by("pk")[:SHOWN],
            *Recording.objects.filter(unit=unit_pk).select_related("author").order_by("pk")[:SHOWN]]


def same_elsewhere(unit_pk: int, files: Iterable[Any]) -> dict[str, list[Elsewhere]]:
    """By SHA-256, the other records that the same bytes were sent to. One query."""
    found = defaultdict(list)
    for row in _sent(Q(sha256__in=[one.sha256 for one in files]), ~Q(unit=unit_pk)):
        found[row.sha256].append(row)
    return dict(found)


def accounts_with_same_files(person_pk: int) -> list[tuple[int, str, int]]:
    """Other accounts that sent files of this one: account, name and how many. Two queries."""
    own = _sent(Q(author=person_pk))
    others = _sent(Q(sha256__in={row.sha256 for row in own}), ~Q(author=person_pk))
    files, names = defaultdict(set), {}
    for row in others:
        files[row.sender].add(row.sha256)
        names[row.sender] = row.name
    counted = [(sender, names[sender], len(digests)) for sender, digests in files.items()]
    return sorted(counted, key=lambda one: (-one[2], one[1]))


def _sent(*conditions: Q) -> list[Elsewhere]:
    def of(model: Any) -> QuerySet:
        return model.objects.filter(*conditions).exclude(sha256="").order_by().values_list(
            "sha256", "unit", "author", F("author__username"))
    return [Elsewhere(*row) for row in of(Photo).union(of(Recording))[:20 * SHOWN]]


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
