"""Published units beside each other: what they are, what they claim, what their evidence says."""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.urls import reverse
from django.utils.safestring import SafeString

from teardowns.models import Kind, Photo, PhotoDerivative
from teardowns.models.photos import by_stage
from teardowns.reading.quantity import print_interval

from .numbers import claimed_watts
from .photo_sheet import DRAWING, picture
from .unit_rows import UNCLAIMED
from .verdict_words import CHIPS

COLUMNS = ("title", "maker", "model", "kind", "published_at", "standing__verdict",
           "standing__claimed_power", "standing__capability_low", "standing__capability_high")
SIZES = "(min-width: 40rem) 8rem, 45vw"


@dataclass(frozen=True, slots=True)
class LibraryUnit:
    pk: int
    address: str
    title: str
    maker: str               # as printed, or "not stated"
    model: str
    kind: str
    published: str           # ISO date
    claimed: str             # "45 W", or that it claims none
    capability: str          # "13.1 to 16.7 W", the 90 % interval of confirmed evidence
    verdict: SafeString      # chip
    picture: dict[str, Any] | None = None
    remark: str = ""         # of the picture


def library_units(units: Any) -> list[LibraryUnit]:
    """Rows of a queryset of published units, in its order, as their versions have them.

    Three queries whatever their number.
    """
    columns = {name: f"publication__{name}" for name in COLUMNS}
    found = list(units.values("pk", *columns.values()))
    pictures = _pictures([row["pk"] for row in found])
    return [library_unit(row["pk"], {name: row[path] for name, path in columns.items()},
                         pictures.get(row["pk"])) for row in found]


def library_unit(pk: int, version: Mapping[str, Any],
                 shown: tuple[Photo, Sequence[PhotoDerivative]] | None = None) -> LibraryUnit:
    """version : COLUMNS of the publication that stands; shown : a photo and its files"""
    ends = version["standing__capability_low"], version["standing__capability_high"]
    power, verdict = version["standing__claimed_power"], version["standing__verdict"]
    return LibraryUnit(
        pk=pk, address=reverse("unit_detail", args=[pk]),
        title=version["title"] or f"unit {pk}",
        maker=version["maker"] or "not stated", model=version["model"] or "not stated",
        kind=Kind(version["kind"]).label if version["kind"] else "",
        published=version["published_at"].date().isoformat() if version["published_at"] else "",
        claimed="no power claim" if power is None else claimed_watts(power),
        capability="unknown" if None in ends else print_interval(*ends, "W"),
        verdict=CHIPS.get(verdict, UNCLAIMED),
        picture=picture(*shown, SIZES) if shown else None,
        remark=DRAWING if shown and shown[0].drawn else "")


def _pictures(units: Sequence[int]) -> dict[int, tuple[Photo, list[PhotoDerivative]]]:
    """Of each unit the first published photo that is shown, with its files, smallest first."""
    photos = Photo.objects.shown().with_hidden().filter(
        unit__in=units, published_at__isnull=False, is_hidden=False)
    first: dict[int, Photo] = {}
    for photo in photos.order_by("unit", by_stage("stage"), "pk"):
        first.setdefault(photo.unit_id, photo)
    files: dict[int, list[PhotoDerivative]] = {photo.pk: [] for photo in first.values()}
    for file in PhotoDerivative.objects.filter(photo__in=files).order_by("width"):
        files[file.photo_id].append(file)
    return {unit: (photo, files[photo.pk]) for unit, photo in first.items()}
