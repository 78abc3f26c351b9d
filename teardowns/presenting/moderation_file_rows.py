"""Files of a record as a moderator reads them."""
from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django.urls import reverse

from teardowns.models import Photo

from .moderation_times import moment

NOTHING_TAKEN_OUT = "nothing was found in it but the picture"


def file_rows(files: Iterable[Any], elsewhere: Mapping[str, list[Any]],
              alike: Mapping[str, list[Any]]) -> list[dict[str, Any]]:
    """elsewhere : by SHA-256, where else the file was sent, see `same_elsewhere`
    alike : by key of a photo, what looks like it, see `pictures_alike`
    """
    return [_row(one, elsewhere.get(one.sha256, []), alike.get(one.key, [])) for one in files]


def _row(file, elsewhere, alike):
    is_photo = isinstance(file, Photo)
    kind = "photo" if is_photo else "recording"
    return {
        "ref": f"{kind}/{file.key}", "anchor": f"{kind}-{file.key}", "is_photo": is_photo,
        "name": file.caption or file.original_name or file.key, "digest": file.sha256,
        "address": reverse(f"unit_{kind}", args=[file.unit_id, file.key]),
        "is_shown": file.is_shown, "sender": file.author.get_username(),
        "sender_address": reverse("person", args=[file.author_id]),
        "at": moment(file.created_at),
        "taken_out": ("; ".join(file.stripped) or NOTHING_TAKEN_OUT) if is_photo else "",
        "elsewhere": [{"address": reverse("moderation_unit", args=[one.unit]),
                       "words": f"record {one.unit}, sent by {one.name}"} for one in elsewhere],
        "alike": [{"address": reverse("moderation_unit", args=[one.unit]),
                   "words": f"record {one.unit}, photo {one.key}, sent by {one.name}: "
                            f"{one.bits} of 64 fields differ"} for one in alike if is_photo],
    }
