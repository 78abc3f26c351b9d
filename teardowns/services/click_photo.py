"""Keep how often one point was clicked, and so how far one click of this person may be off."""
from __future__ import annotations

import numpy as np
from django.db import transaction

from core.audit.record import record
from teardowns import access
from teardowns.imaging.measuring import click_uncertainty
from teardowns.imaging.points import Points
from teardowns.models import Photo, PhotoClicks

FURTHEST = 0.02            # of the longer side: clicks further apart mean different points


@transaction.atomic
def click_photo(*, author, photo: Photo, points: Points) -> PhotoClicks:
    """It counts for what its author measures on this photo from now on.

    Raises Http404, or ValueError in the user's words.
    """
    photo = access.photo_to_change(author, photo.unit_id, photo.key)
    u = click_uncertainty(points)
    _check(np.array(points), max(photo.width or 0, photo.height or 0))
    row = PhotoClicks.objects.create(photo=photo, points=[list(point) for point in points],
                                     uncertainty=u, author=author)
    record(author, "photo_clicked", photo.unit_id, photo=photo.key, clicks=row.pk)
    return row


def clicks_of(author, photo: Photo) -> PhotoClicks | None:
    """The newest of this person on this photo: another hand and another screen err otherwise."""
    return photo.clicks.filter(author=author).select_related("author").last()


def _check(points, longer_side):
    if not np.ptp(points, axis=0).any():
        raise ValueError("All clicks lie on exactly the same spot. Move the pointer away after "
                         "each click and aim anew: only then do they show how far one may be off.")
    furthest = float(np.linalg.norm(points - points.mean(axis=0), axis=1).max())
    if furthest > FURTHEST * longer_side:
        raise ValueError(f"The clicks lie up to {furthest:.0f} pixels from their middle: that is "
                         "more than one point. Click the same point each time.")
