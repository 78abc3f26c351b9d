"""Say what turns a photo's pixels into millimetres. A scale is never changed: a new one follows."""
from __future__ import annotations

from collections.abc import Sequence

from django.db import transaction

from core.audit.record import record
from teardowns.imaging.points import Points
from teardowns.imaging.scales import Scale, stored_scale
from teardowns.models import Photo, PhotoScale

from .locked_photo import locked_photo


def scale_of(row: PhotoScale) -> Scale:
    """The stored scale, ready to measure with. Raises ScaleError."""
    return stored_scale(row.points, row.lengths, row.length_uncertainty)


@transaction.atomic
def scale_photo(*, author, photo: Photo, points: Points, lengths: Sequence[float],
                length_u: float | None, known: str = "", plane: str = "") -> PhotoScale:
    """A scale by two points or four corners; m, k = 1. Raises Http404 or ScaleError."""
    photo = locked_photo(author, photo)
    row = PhotoScale(photo=photo, points=[list(point) for point in points],
                     lengths=list(lengths), length_uncertainty=length_u, known=known, plane=plane,
                     author=author)
    scale_of(row)
    row._history_user = author        # type: ignore[attr-defined]
    row.save()
    record(author, "photo_scaled", photo.unit_id, photo=photo.key, scale=row.pk)
    return row
