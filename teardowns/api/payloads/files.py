"""Photos and logs as JSON."""
from collections.abc import Iterable
from typing import Any

from django.urls import reverse

from teardowns.models import Photo, PhotoDerivative, Recording
from teardowns.presenting.photo_sheet import address

READING = ("shows", "value", "uncertainty", "shape", "points", "blind")
TAKEN = ("code", "value", "uncertainty", "start", "end", "shows")


def photo_row(photo: Photo, files: Iterable[PhotoDerivative]) -> dict[str, Any]:
    place = [photo.unit_id, photo.key]
    return {
        "key": photo.key, "href": reverse("api_unit_photo", args=place),
        "page": reverse("unit_photo", args=place), "stage": photo.stage,
        "caption": photo.caption, "alt": photo.alt, "is_drawing": bool(photo.drawn),
        "width": photo.width, "height": photo.height, "sha256": photo.sha256,
        "pictures": [{"width": each.width, "height": each.height, "media_type": each.media_type,
                      "href": address(photo, each.width)} for each in files]}


def recording_row(recording: Recording) -> dict[str, Any]:
    """recording : with its port"""
    place = [recording.unit_id, recording.key]
    return {
        "key": recording.key, "href": reverse("api_unit_recording", args=place),
        "page": reverse("unit_recording", args=place), "kind": recording.kind,
        "caption": recording.caption, "instrument": recording.instrument,
        "port": recording.port.key if recording.port else "", "rows": recording.rows,
        "sha256": recording.sha256, "values": reverse("api_unit_recording_values", args=place)}


def named(row: Any, names: Iterable[str]) -> dict[str, Any]:
    return {name: getattr(row, name) for name in names}
