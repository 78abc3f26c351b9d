"""Burn a region out of every picture of a photo: new files, the old ones purged."""
from __future__ import annotations

from django.core.files.storage import storages
from django.db import transaction

from teardowns import access
from teardowns.imaging.derive import derive
from teardowns.models import AuditEntry, Photo, PhotoCover

from .photo_files import keep_pictures, opened_original, workshop


def cover_photo(*, author, photo: Photo, box: tuple[float, float, float, float],
                reason: str) -> PhotoCover:
    """Cover x, y, width, height for good. Raises Http404 or imaging's Refused.

    Pictures are made and stored before the rows change; the old files go after that is certain.
    """
    photo = access.photo_to_cover(author, photo.unit_id, photo.key)
    boxes = [*photo.covers.values_list("box", flat=True), box]
    with opened_original(photo) as original, workshop() as folder:
        pictures = keep_pictures(derive(original, folder, [tuple(each) for each in boxes]))
    with transaction.atomic():
        photo = Photo.objects.select_for_update().get(pk=photo.pk)
        cover = PhotoCover.objects.create(photo=photo, box=list(box), reason=reason, author=author)
        old = list(photo.derivatives.values_list("path", flat=True))
        photo.derivatives.all().delete()
        for picture in pictures:
            picture.photo = photo
            picture.save()
        AuditEntry.objects.create(actor=author, action="photo_covered", unit=photo.unit,
                                  detail={"photo": photo.key, "reason": reason})
        transaction.on_commit(lambda: _purge(old))
    return cover


def _purge(names):
    for name in names:
        storages["pictures"].delete(name)
