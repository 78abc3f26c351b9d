"""What a restore must not bring back of photos: regions that were burnt out."""
from __future__ import annotations

from typing import Any

from core.accounts.models import User
from core.backup.erasures import register
from teardowns.models import Photo, PhotoCover

from .cover_photo import cover_again

REASON = "Burnt out before; done again after a backup was restored."


def covered_regions() -> list[dict[str, Any]]:
    covers = PhotoCover.objects.order_by("pk").values_list("photo_id", "box", "author_id")
    return [{"photo": photo, "box": box, "author": author} for photo, box, author in covers]


def burn_out_again(erased: dict[str, Any]) -> bool:
    """Whether the photo is there and showed the region."""
    photo = Photo.objects.filter(pk=erased["photo"]).first()
    if photo is None or photo.covers.filter(box=erased["box"]).exists():
        return False
    author = User.objects.filter(pk=erased["author"]).first() or photo.unit.contributor
    cover_again(author=author, photo=photo, box=tuple(erased["box"]), reason=REASON)
    return True


def register_erasures() -> None:
    register("cover", covered_regions, burn_out_again)
