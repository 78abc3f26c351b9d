"""Take in one photo: may they, is it a picture, keep the original, derive, record, log."""
from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from pathlib import Path

from django.db import IntegrityError, transaction
from django.utils.text import slugify

from core.audit.record import record
from teardowns.access import unit_to_change
from teardowns.imaging.derive import derive
from teardowns.imaging.refusals import Refused
from teardowns.models import Photo, Stage, Unit

from .account_room import without_room
from .list_units import list_units
from .photo_files import digest, keep_original, keep_pictures, workshop

MOST_PHOTOS = 400          # of one unit
LONGEST_NAME = 80
NO_ROOM = "the server has no room for it just now. Nothing else is lost; try again later."


class PhotoRefused(Exception):
    """What is wrong with one file, with its name, and the remedy."""

    def __init__(self, name: str, message: str):
        super().__init__(f"{shown_name(name)}: {message}")
        self.message = message


@dataclass(frozen=True)
class Received:
    photo: Photo
    is_new: bool          # False: the unit had this very file already


def receive_photo(*, contributor, unit_pk: int, path: Path, name: str,
                  stage: str = Stage.OTHER) -> Received:
    """The photo in this file, stored with its pictures. Raises Http404 or PhotoRefused.

    Files are stored before the rows that name them: a crash between leaves files that nothing
    names, which the sweeper finds, and never a row without its file.
    """
    unit = unit_to_change(contributor, unit_pk)
    sha256 = digest(path)
    known = Photo.objects.filter(unit=unit, sha256=sha256).first()
    if known is not None and known.derivatives.exists():
        return _again(known, contributor)
    if unit.photos.count() >= MOST_PHOTOS:
        raise PhotoRefused(name, f"this unit has {MOST_PHOTOS} photos already. Take down what "
                                 "shows nothing new, or write to a moderator.")
    if why := without_room(contributor, path.stat().st_size):
        raise PhotoRefused(name, why)
    with workshop() as folder:
        try:
            made = derive(path, folder)
        except Refused as refusal:
            raise PhotoRefused(name, refusal.message) from refusal
        keep_original(path, sha256)
        pictures = keep_pictures(made)
    # A photo that came in with a document alone is a digest; here is its file.
    photo = known or Photo(unit=unit, sha256=sha256, original_name=shown_name(name), stage=stage,
                           author=contributor)
    photo.media_type, photo.byte_size = made.walk.media_type, path.stat().st_size
    photo.width, photo.height = made.walk.width, made.walk.height
    photo.perceptual_hash, photo.stripped = made.perceptual_hash, list(made.walk.removed)
    try:
        _record(photo, pictures, contributor)
    except IntegrityError:
        # The same file came twice at the same moment.
        twin = Photo.objects.filter(unit=unit, sha256=sha256).first()
        if twin is None:
            raise
        return Received(twin, False)
    return Received(photo, True)


def _again(photo, contributor):
    """A photo that was taken down and is sent once more is shown again."""
    if photo.taken_down_at:
        _show_again(photo, contributor)
    return Received(photo, False)


@transaction.atomic
def _show_again(photo, contributor):
    photo.taken_down_at, photo.take_down_reason, photo.set_aside = None, "", False
    photo.version += 1
    photo._history_user, photo._change_reason = contributor, "Sent once more"
    photo.save()
    list_units([photo.unit_id])
    record(contributor, "photo_shown_again", photo.unit_id, photo=photo.key)


@transaction.atomic
def _record(photo, pictures, contributor):
    Unit.objects.select_for_update().get(pk=photo.unit_id)      # one new key at a time
    unit = unit_to_change(contributor, photo.unit_id)
    photo.key = photo.key or _key(unit, photo)
    photo._history_user = contributor
    photo.save()
    for picture in pictures:
        picture.photo = photo
        picture.save()
    list_units([unit.pk])
    record(contributor, "photo_received", unit, photo=photo.key, sha256=photo.sha256)


def _key(unit, photo):
    """ "component-side-2": stable, and readable in an address."""
    stem, taken = slugify(photo.stage.replace("_", "-")), set(
        unit.photos.values_list("key", flat=True))
    number = 1
    while f"{stem}-{number}" in taken:
        number += 1
    return f"{stem}-{number}"


def shown_name(name: str) -> str:
    """The file's name as it may be shown: no folders, no signs that nobody sees or that reverse."""
    last = name.replace("\\", "/").rsplit("/", 1)[-1]
    seen = "".join(sign for sign in unicodedata.normalize("NFC", last)
                   if unicodedata.category(sign)[0] not in "CZ" or sign == " ")
    return seen[:LONGEST_NAME].strip() or "a file without a name"
