"""Photos of a version with what is marked on them, as they may be printed now."""
from __future__ import annotations

from collections.abc import Callable, Mapping
from io import BytesIO
from itertools import groupby
from typing import Any

from django.core.files.storage import storages
from django.utils.safestring import mark_safe
from PIL import Image

from core.words.said import said
from teardowns.figures.photo_marks import marks_drawing
from teardowns.models import Annotation, PhotoDerivative
from teardowns.presenting.photo_sheet import DRAWING, drawn, title
from teardowns.services.thaw import Thawed

WIDE_ENOUGH = 1000               # px, of a picture half a page wide
QUALITY = 82

Reading = Callable[[], bytes]


def printed_photos(thawed: Thawed, live: Any, names: Mapping[str, str]
                   ) -> tuple[list[dict[str, Any]], dict[str, Reading]]:
    """What the template takes, and by file name what reads each picture.

    names : by ref, what a row of evidence is called
    """
    then = {photo.pk: photo for photo in thawed.rows["photo"]}
    shown, files = [], {}
    rows = PhotoDerivative.objects.shown_of(live, in_sight=True)
    for photo, group in groupby(rows, key=lambda each: each.photo):
        if photo.pk in then:
            picture = _chosen(list(group))
            name = f"photo-{photo.pk}-{picture.width}.jpg"
            files[name] = _reader(picture.path)
            shown.append(_shown(then[photo.pk], picture, name, thawed, names))
    return shown, files


def _chosen(pictures):
    return next((one for one in pictures if one.width >= WIDE_ENOUGH), pictures[-1])


def _shown(photo, picture, name, thawed, names):
    marks = thawed.of_photo(Annotation, photo)
    # Marks count in pixels of the whole photo; on paper the picture may be a smaller one.
    drawing = marks_drawing([drawn(mark) for mark in marks], photo.width, photo.height)
    return {
        "file": name, "width": photo.width, "height": photo.height, "title": said(title(photo)),
        "alt": (photo.alt or photo.caption
                or said(f"Photo, {photo.get_stage_display().lower()}")),
        "caption": photo.caption, "remark": DRAWING if photo.drawn else "",
        "author": photo.author.get_username(), "drawing": mark_safe(drawing) if marks else "",
        "marks": [_legend(mark, names) for mark in marks], "sha256": in_groups(photo.sha256),
    }


def _legend(mark, names):
    return drawn(mark).label or said(names.get(mark.shows, "") or "a place")


def in_groups(digest: str) -> str:
    """A digest that can be set in a narrow column, and read back by hand."""
    return " ".join(digest[at:at + 16] for at in range(0, len(digest), 16))


def _reader(path) -> Reading:
    """A picture as JPEG: every typesetter draws it, and it carries nothing but pixels."""
    def read() -> bytes:
        written = BytesIO()
        with storages["pictures"].open(path) as file, Image.open(file) as image:
            image.convert("RGB").save(written, "JPEG", quality=QUALITY)
        return written.getvalue()
    return read
