"""A file in blocks, for the script: begin, go on, ask how far it came; a photo and a log alike."""
import json
import logging
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.http import Http404, HttpResponse, JsonResponse
from django.utils.cache import patch_vary_headers

from core.outages import AWAY, STATUS, WORDS, outage_of
from core.whole_number import whole_number
from core.words.said import said as in_words
from teardowns.access import unit_to_change
from teardowns.services.receive_photo import NO_ROOM
from teardowns.services.receive_upload import (
    LARGEST_BLOCK,
    WrongOffset,
    append_block,
    still_known,
)

logger = logging.getLogger(__name__)
OFFSET = "Upload-Offset"
PREFERENCE = "refusal-status=200"


@dataclass(frozen=True)
class Arriving:
    """What differs between the kinds of files."""

    uploads: Any                            # the model of what is on its way
    field: str                              # of the upload, for what it became
    refused: type[Exception]                # has a message
    begin: Callable[..., Any]               # (contributor, unit_pk, name, size, sha256, said)
    finish: Callable[..., Any]              # (contributor, upload)
    address: Callable[[Any], str]           # of what it became


def begun(request, pk, kind: Arriving):
    unit = unit_to_change(request.user, pk)
    try:
        name, size, sha256, said = _about(request.body)
        it = kind.begin(contributor=request.user, unit_pk=unit.pk, name=name, size=size,
                        sha256=sha256, said=said)
    except (ValueError, kind.refused) as error:
        return _refused(request, error)
    if isinstance(it, kind.uploads):
        return JsonResponse({"upload": str(it.pk), "offset": it.received}, status=201)
    return JsonResponse({"kept": kind.address(it)})


def arrived(request, pk, uid, kind: Arriving):
    upload = _upload(request.user, pk, uid, kind)
    if request.method == "GET":
        return _state(request, upload, kind)
    offset = whole_number(request.headers.get(OFFSET, ""), 15)
    if offset is None:
        return JsonResponse({"message": "The block does not say where it begins."}, status=400)
    block = request.body
    if len(block) > LARGEST_BLOCK:
        return JsonResponse({"message": "The block is too large."}, status=413)
    try:
        upload = append_block(contributor=request.user, upload=upload, offset=offset,
                              block=block)
    except WrongOffset as wrong:
        return HttpResponse(status=409, headers={OFFSET: str(wrong.expected)})
    except OSError as error:
        return _not_stored(upload, error)
    if upload.received < upload.byte_size:
        return HttpResponse(status=204, headers={OFFSET: str(upload.received)})
    return _finished(request, upload, kind, 201)


def _state(request, upload, kind):
    """A file that had arrived whole when the answer was lost is taken in now."""
    if upload.received < upload.byte_size:
        return JsonResponse({"offset": upload.received})
    return _finished(request, upload, kind, 200)


def _finished(request, upload, kind, status):
    try:
        became = kind.finish(contributor=upload.author, upload=upload)
    except kind.refused as refusal:
        return _refused(request, refusal)
    except OSError as error:
        return _not_stored(upload, error)
    return JsonResponse({"kept": kind.address(became)}, status=status)


def _refused(request, error):
    """422; a browser prints that as a fault of the page, so a script may prefer 200 (RFC 7240)."""
    message = in_words(getattr(error, "message", str(error)))
    preferred = {each.strip().lower() for each in request.headers.get("Prefer", "").split(",")}
    if PREFERENCE in preferred:
        answer = JsonResponse({"refused": message}, headers={"Preference-Applied": PREFERENCE})
    else:
        answer = JsonResponse({"message": message}, status=422)
    patch_vary_headers(answer, ["Prefer"])
    return answer


def _not_stored(upload, error):
    """What has arrived is kept; the script tries again, and so may a person, later."""
    logger.exception("upload %s could not be stored", upload.pk)
    if outage_of(error) == AWAY:
        return JsonResponse({"message": in_words(WORDS[AWAY])}, status=STATUS[AWAY])
    return JsonResponse({"message": NO_ROOM}, status=507)


def _upload(user, pk, uid, kind):
    unit = unit_to_change(user, pk)
    upload = kind.uploads.objects.select_related(kind.field, "author").filter(
        still_known(kind.field), pk=uid, unit=unit, author=user).first()
    if upload is None:
        raise Http404("No such upload.")
    return upload


def _about(body):
    """name, size, sha256 and all that was said; ValueError in words where that is odd."""
    try:
        said = json.loads(body)
    except (ValueError, RecursionError) as error:
        raise ValueError("What was said of the file is no JSON. Reload the page.") from error
    said = said if isinstance(said, dict) else {}
    name, size = said.get("name"), said.get("size")
    if not isinstance(name, str) or type(size) is not int or "\0" in name:
        raise ValueError("The file has no name or no size. Reload the page.")
    sha256 = said.get("sha256", "")
    known = isinstance(sha256, str) and len(sha256) == 64
    return name, size, sha256.lower() if known else "", said
