"""What a photo is said to show, when it was taken, and taking it down."""
from __future__ import annotations

from django.db import transaction
from django.utils import timezone

from core.audit.record import record
from teardowns import access
from teardowns.models import Photo

from .cite_part import SaveRefused
from .list_units import list_units
from .locked_photo import locked_photo
from .save_section import differs

OF_A_VERSION = ("It came with a public version, and somebody else sent it: report it on its "
                "record’s page, and a moderator looks at it at once.")


class StalePhoto(Exception):
    """Somebody changed the photo since the page was drawn; nothing was saved."""


@transaction.atomic
def describe_photo(*, author, photo: Photo, version: int, stage: str, caption: str,
                   alt: str) -> bool:
    """Whether something had to be changed. Raises Http404 or StalePhoto."""
    photo = locked_photo(author, photo)
    values = {"stage": stage, "caption": caption, "alt": alt}
    if not differs(photo, values):
        return False
    if photo.version != version:
        raise StalePhoto
    for name, value in values.items():
        setattr(photo, name, value)
    _save(photo, author, "Described")
    record(author, "photo_described", photo.unit_id, photo=photo.key, version=photo.version)
    return True


@transaction.atomic
def take_down_photo(*, author, photo: Photo, reason: str) -> None:
    """Shown to nobody from now on; the original and what was read off it stay."""
    photo = locked_photo(author, photo)
    if not access.may_take_down(author, photo):
        raise SaveRefused(OF_A_VERSION)
    photo.taken_down_at, photo.take_down_reason = timezone.now(), reason
    _save(photo, author, "Taken down")
    list_units([photo.unit_id])
    record(author, "photo_taken_down", photo.unit_id, reason=reason, photo=photo.key)


def _save(photo, author, reason):
    photo.version += 1
    photo._history_user, photo._change_reason = author, reason
    photo.save()
