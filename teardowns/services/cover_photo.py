"""Burn a region out of every picture of a photo: new files, the old ones purged."""
from __future__ import annotations

from django.core.files.storage import storages
from django.db import transaction

from core.audit.record import record
from teardowns import access
from teardowns.imaging.derive import derive
from teardowns.imaging.refusals import Refused
from teardowns.models import Photo, PhotoCover

from .photo_files import keep_pictures, opened_original, workshop

Box = tuple[float, float, float, float]


def cover_photo(*, author, photo: Photo, box: Box, reason: str) -> PhotoCover:
    """Cover x, y, width, height for good. Raises Http404 or imaging's Refused.

    Pictures are made and stored before the rows change; the old files go after that is certain.
    Where somebody else covered another region meanwhile, they are made once more, with both.
    """
    return _covered(author, lambda: access.photo_to_cover(author, photo.unit_id, photo.key), box,
                    reason)


def cover_again(*, author, photo: Photo, box: Box, reason: str) -> PhotoCover:
    """What was covered once is covered whoever may do so now."""
    return _covered(author, lambda: Photo.objects.get(pk=photo.pk), box, reason)


def _covered(author, find_photo, box, reason):
    while True:
        photo = find_photo()
        before = _boxes(photo)
        pictures = _without(photo, [*before, box])
        cover = _replaced(author, photo, before, pictures, box, reason)
        if cover is not None:
            return cover
        _purge([picture.path for picture in pictures])


def _boxes(photo):
    return [tuple(box) for box in photo.covers.order_by("pk").values_list("box", flat=True)]


def _without(photo, boxes):
    """Rows, not saved yet, of pictures that show none of the boxes."""
    try:
        with opened_original(photo) as original, workshop() as folder:
            return keep_pictures(derive(original, folder, boxes))
    except FileNotFoundError as error:
        raise Refused("original_missing", "The original of this photo is missing on the server. "
                                          "Take the photo down, and tell a moderator.") from error


@transaction.atomic
def _replaced(author, photo, before, pictures, box, reason):
    """The cover, or None where others were added since the pictures were made."""
    photo = Photo.objects.select_for_update().get(pk=photo.pk)
    if _boxes(photo) != before:
        return None
    cover = PhotoCover.objects.create(photo=photo, box=list(box), reason=reason, author=author)
    old = list(photo.derivatives.values_list("path", flat=True))
    photo.derivatives.all().delete()
    for picture in pictures:
        picture.photo = photo
        picture.save()
    record(author, "photo_covered", photo.unit_id, reason=reason, photo=photo.key)
    transaction.on_commit(lambda: _purge(old))
    return cover


def _purge(names):
    for name in names:
        storages["pictures"].delete(name)
