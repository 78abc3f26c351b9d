"""Files of a record for a moderator: where else the same file was sent, and by whom."""
from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from typing import Any, NamedTuple

import numpy as np
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
ALIKE, MOST = 8, 10       # bits, from here on they look different; so many are named
PLAIN = 8                 # of 64 bits: with fewer set, or unset, a picture looks like many others
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


class Alike(NamedTuple):
    """A picture in another record that looks like one of this, and is no copy of its bytes."""

    unit: int
    key: str
    name: str                # of who sent it
    bits: int                # of 64 in which the two differ


def pictures_alike(unit_pk: int, files: Iterable[Any]) -> dict[str, list[Alike]]:
    """By key of a photo, what looks like it elsewhere, the most alike first. Two queries.

    Scaled or compressed anew, a picture keeps its look (`imaging/perceptual_hash.py`); every photo
    of the site is looked at, so a page of many units shall not ask this.
    """
    own = {one.key: one for one in files if isinstance(one, Photo) and _says_something(one)}
    others = Photo.objects.exclude(unit=unit_pk).filter(drawn=False, perceptual_hash__isnull=False)
    rows = np.array(others.order_by().values_list("pk", "perceptual_hash") if own else [],
                    dtype=np.int64).reshape(-1, 2)                        # (n, 2)
    near = {key: _nearest(rows, photo.perceptual_hash) for key, photo in own.items()}
    found = others.select_related("author").in_bulk({pk for pks in near.values() for pk in pks})
    return {key: alike for key, pks in near.items() if (alike := [
        Alike(found[pk].unit_id, found[pk].key, found[pk].author.get_username(), bits)
        for pk, bits in pks.items() if found[pk].sha256 != own[key].sha256])}


def _says_something(photo):
    if photo.drawn or photo.perceptual_hash is None:
        return False
    return PLAIN <= (photo.perceptual_hash & (1 << 64) - 1).bit_count() <= 64 - PLAIN


def _nearest(rows, own):
    """Bits by primary key."""
    bits = np.bitwise_count((rows[:, 1] ^ own).view(np.uint64))
    nearest = np.argsort(bits, kind="stable")[:MOST]
    return {int(rows[at, 0]): int(bits[at]) for at in nearest if bits[at] < ALIKE}


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
