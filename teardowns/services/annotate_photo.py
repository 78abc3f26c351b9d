"""Marks on a photo: draw one, change one, take one away; two people at once lose nothing."""
from __future__ import annotations

from django.db import transaction

from core.audit.record import record
from teardowns.imaging.points import Points
from teardowns.imaging.web_annotation import written
from teardowns.models import Annotation, Photo

from .locked_photo import locked_photo

MOST_MARKS = 300           # on one photo


class StaleMark(Exception):
    """The mark was changed or removed since the page was drawn; nothing was saved."""


class MarkRefused(Exception):
    """The message says why and what to do."""


@transaction.atomic
def put_mark(*, author, photo: Photo, shape: str, points: Points, label: str, shows: str,
             key: str = "", version: int = 0) -> Annotation:
    """A new mark, or one of this key as it shall become. Raises Http404, StaleMark, MarkRefused."""
    photo = locked_photo(author, photo)
    mark = _mark(photo, key, version) if key else _new_mark(photo, author)
    mark.body = written(shape, points, label, shows, photo.get_absolute_url())
    mark.shows = shows
    mark._history_user, mark._change_reason = author, "Marked on the photo"
    mark.save()
    _log(author, photo, "mark_put", mark)
    return mark


@transaction.atomic
def remove_mark(*, author, photo: Photo, key: str, version: int) -> None:
    """Its history stays. Raises Http404 or StaleMark."""
    photo = locked_photo(author, photo)
    mark = _mark(photo, key, version)
    _log(author, photo, "mark_removed", mark)
    mark._history_user, mark._change_reason = author, "Removed from the photo"
    mark.delete()


def _mark(photo, key, version):
    mark = photo.annotations.filter(key=key).first()
    if mark is None or mark.version != version:
        raise StaleMark
    mark.version += 1
    return mark


def _new_mark(photo, author):
    if photo.annotations.count() >= MOST_MARKS:
        raise MarkRefused(f"This photo carries {MOST_MARKS} marks. Remove one first, or mark "
                          "another photo.")
    # History names the removed ones too: a key never means something else later on.
    taken = {int(key[1:]) for key in Annotation.history.filter(photo=photo)
             .values_list("key", flat=True) if key[1:].isdigit()}
    return Annotation(photo=photo, author=author, key=f"m{max(taken, default=0) + 1}")


def _log(author, photo, action, mark):
    record(author, action, photo.unit_id, photo=photo.key, mark=mark.key, version=mark.version)
