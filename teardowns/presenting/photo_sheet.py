"""A photo as a page shows it: its picture in every width, its marks, what was read off it."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import Any

import numpy as np
from django.urls import reverse
from django.utils.safestring import mark_safe

from core.words.as_written import AsWritten
from teardowns.figures.photo_marks import DrawnMark, marks_drawing
from teardowns.imaging.scales import stored_scale
from teardowns.imaging.web_annotation import read
from teardowns.models import (
    Annotation,
    Photo,
    PhotoDerivative,
    PhotoReading,
    PhotoScale,
    PhotoTemperature,
    Unit,
)
from teardowns.reading.quantity import print_quantity

from .links import Links
from .photo_readings import compared, temperatures_told

SIZES = "(min-width: 64rem) 52rem, 100vw"
THUMB_SIZES = "(min-width: 40rem) 16rem, 45vw"
DRAWING = "Drawing, not a photograph."


def picture(photo: Photo, files: Sequence[PhotoDerivative], sizes: str = SIZES) -> dict[str, Any]:
    """What an <img> needs. files : of the photo, smallest first"""
    best = next((each for each in files if each.width >= 1280), files[-1] if files else None)
    return {
        "src": address(photo, best.width) if best else "",
        "srcset": ", ".join(f"{address(photo, each.width)} {each.width}w" for each in files),
        "sizes": sizes, "width": photo.width, "height": photo.height,
        "alt": AsWritten(photo.alt or photo.caption)
        or f"Photo, {photo.get_stage_display().lower()}",
        "full": address(photo, files[-1].width) if files else "",
    }


def address(photo: Photo, width: int) -> str:
    return reverse("photo_picture", args=[photo.unit_id, photo.key, width])


def gallery(unit: Unit, frozen: Sequence[Photo] | None = None) -> list[dict[str, Any]]:
    """The pictures of a unit as thumbnails, stage by stage; asks the database once.

    frozen : the photos of one version, with their captions then; what is taken down stays so, and
        what is hidden for now is left out
    """
    files = groupby(PhotoDerivative.objects.shown_of(unit, in_sight=frozen is not None),
                    key=lambda each: each.photo)
    found = [(photo, list(group)) for photo, group in files]
    if frozen is not None:
        then = {photo.pk: photo for photo in frozen}
        found = [(then[photo.pk], group) for photo, group in found if photo.pk in then]
    return [{"picture": picture(photo, group, THUMB_SIZES),
             "address": photo.get_absolute_url(),
             "edit": reverse("bench_photo", args=[photo.unit_id, photo.key]),
             "stage": title(photo), "caption": photo.caption.partition(". ")[0],
             "remark": DRAWING if photo.drawn else ""} for photo, group in found]


def title(photo: Photo) -> str:
    """ "Component side", and its number where the stage has several."""
    number = photo.key.rpartition("-")[2]
    several = number if number.isdigit() and number != "1" else ""
    return f"{photo.get_stage_display()} {several}".strip()


def gallery_neighbours(photos: Sequence[Photo], photo: Photo) -> dict[str, Any]:
    """The photos before and after this one, and its place among them."""
    keys = [each.key for each in photos]
    at = keys.index(photo.key)
    return {"place": at + 1, "of": len(keys), "before": photos[at - 1] if at else None,
            "after": photos[at + 1] if at + 1 < len(keys) else None}


def photo_sheet(photo: Photo, marks: Sequence[Annotation], scale_rows: Sequence[PhotoScale],
                readings: Sequence[PhotoReading], names: Mapping[str, str],
                hidden: str = "", meant: str = "",
                temperatures: Sequence[PhotoTemperature] = ()) -> dict[str, Any]:
    """Context of a page about one photo.

    names : by ref, what a row of evidence is called; hidden : ref whose mark and readings are left
    out, for somebody who measures it blind; meant : ref whose mark stands out
    """
    links = Links(photo.unit_id)
    shown = [mark for mark in marks if not hidden or mark.shows != hidden]
    return {
        "photo": photo, "title": title(photo),
        "picture": picture(photo, list(photo.derivatives.order_by("width"))),
        "remark": DRAWING if photo.drawn else "",
        "drawing": mark_safe(marks_drawing([drawn(mark, meant) for mark in shown],
                                           photo.width, photo.height)),
        "marks": [_listed(mark, names, links) for mark in shown],
        "scales": [_scale(row) for row in scale_rows],
        "readings": [] if hidden else compared(readings, names, links),
        "temperatures": [] if hidden else temperatures_told(temperatures, names, links),
        **_live_scale(scale_rows),
    }


def drawn(mark: Annotation, meant: str = "") -> DrawnMark:
    stored = read(mark.body)
    return DrawnMark(mark.key, mark.version, stored.shape, stored.points,
                     stored.label or mark.shows.partition("/")[2],
                     is_meant=bool(meant) and mark.shows == meant)


def _listed(mark, names, links):
    stored = read(mark.body)
    return {"key": mark.key, "version": mark.version, "shape": stored.shape,
            "label": AsWritten(stored.label) or names.get(mark.shows, "") or stored.shape,
            "shows": names.get(mark.shows, ""), "ref": mark.shows,
            "evidence": links.evidence(mark.shows) if mark.shows in names else "",
            "author": mark.author.get_username()}


def _scale(row):
    lengths = " × ".join(print_quantity(length, "m", digits=4) for length in row.lengths)
    u = row.length_uncertainty
    return {"lengths": lengths, "plane": row.plane,
            "u": print_quantity(2 * u, "m", digits=2) if u is not None else "not stated",
            "how": "two points" if len(row.points) == 2 else "four corners, perspective removed",
            "is_flat": len(row.points) == 4,
            "author": row.author.get_username()}


def _live_scale(rows):
    """What the script needs to show lengths while drawing: the newest scale."""
    if not rows:
        return {}
    newest = rows[-1]
    scale = stored_scale(newest.points, newest.lengths, newest.length_uncertainty)
    if not scale.removes_perspective:
        return {"mm_per_px": f"{1e3 * scale.metres_a_pixel:.8g}"}
    matrix = np.diag([1e3, 1e3, 1.0]) @ scale.matrix
    return {"homography": " ".join(f"{value:.10g}" for value in matrix.ravel())}
