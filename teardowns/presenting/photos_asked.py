"""The photos of a bench sheet as they are asked about before others see them; one query."""
from __future__ import annotations

from itertools import groupby
from typing import Any

from django.db.models import Exists, OuterRef, Q
from django.urls import reverse

from teardowns.models import PhotoDerivative, PhotoPrivacyCheck, PhotoScale, Unit

from .asked_rows import ShownPhoto
from .photo_sheet import THUMB_SIZES, picture, title


def photos_asked(unit: Unit, author) -> list[dict[str, Any]]:
    """Each with `photo`, which says by `is_checked` whether this author ticked this version, and
    `is_vouched` whether somebody else did."""
    checks = PhotoPrivacyCheck.objects.filter(photo=OuterRef("photo"),
                                              photo_version=OuterRef("photo__version"))
    scales = PhotoScale.objects.filter(photo=OuterRef("photo"))
    files = PhotoDerivative.objects.shown_of(unit).annotate(
        is_checked=Exists(checks.filter(author=author)), has_scale=Exists(scales),
        is_vouched=Exists(checks.filter(~Q(author=author))))
    return [_asked(unit, photo, list(group))
            for photo, group in groupby(files, key=lambda each: each.photo)]


def _asked(unit, photo, files):
    first = files[0]
    photo.is_checked = first.is_checked
    return {
        "photo": photo, "is_vouched": first.is_vouched, "title": title(photo),
        "picture": picture(photo, files, THUMB_SIZES), "full": picture(photo, files)["full"],
        "cover": reverse("photo_cover", args=[unit.pk, photo.key]),
        "describe": reverse("bench_photo", args=[unit.pk, photo.key]),
        "shown": ShownPhoto(photo.pk, photo.stage, photo.alt, first.has_scale),
    }
