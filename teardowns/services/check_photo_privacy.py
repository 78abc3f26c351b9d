"""What a contributor says of photos: looked at for what is private, and nothing of it seen."""
from __future__ import annotations

from collections.abc import Collection, Mapping

from django.db import transaction

from core.accounts.models import User
from teardowns import access
from teardowns.models import Photo, PhotoPrivacyCheck

from .move_work import locked_unit


@transaction.atomic
def check_photo_privacy(*, author: User, unit_pk: int, seen: Mapping[str, int],
                        ticked: Collection[str]) -> int:
    """Keep ticks for the versions that were seen; how many hold. Raises Http404.

    seen : by key, the version of each photo that was asked about. A photo that changed since is
    left as it was: what was seen is not what it shows now. One that is not ticked any more is
    taken back.
    """
    locked_unit(unit_pk)
    unit = access.unit_to_change(author, unit_pk)
    photos = [photo for photo in unit.photos.shown().filter(key__in=seen)
              if photo.version == seen[photo.key]]
    kept = [photo for photo in photos if photo.key in ticked]
    _keep(author, kept)
    PhotoPrivacyCheck.objects.filter(
        photo__in=[photo for photo in photos if photo.key not in ticked], author=author).delete()
    return len(kept)


def _keep(author, photos: list[Photo]) -> None:
    PhotoPrivacyCheck.objects.bulk_create(
        (PhotoPrivacyCheck(photo=photo, photo_version=photo.version, author=author)
         for photo in photos), ignore_conflicts=True)
