"""A photo in blocks, for the script: begin, go on, ask how far it came."""
import json
import logging

from django.http import Http404, HttpResponse, JsonResponse
from django.urls import reverse

from teardowns.access import unit_to_change
from teardowns.models import PhotoUpload, Stage
from teardowns.services.receive_photo import NO_ROOM, PhotoRefused
from teardowns.services.receive_upload import (
    LARGEST_BLOCK,
    WrongOffset,
    append_block,
    begin_upload,
    finish_upload,
)

logger = logging.getLogger(__name__)
OFFSET = "Upload-Offset"


def bench_upload_start(request, pk):
    unit = unit_to_change(request.user, pk)
    try:
        about = _about(request.body)
        begun = begin_upload(contributor=request.user, unit_pk=unit.pk, **about)
    except (ValueError, PhotoRefused) as error:
        return JsonResponse({"message": getattr(error, "message", str(error))}, status=422)
    if isinstance(begun, PhotoUpload):
        return JsonResponse({"upload": str(begun.pk), "offset": begun.received}, status=201)
    return JsonResponse({"photo": _address(begun)})


def bench_upload(request, pk, uid):
    upload = _upload(request.user, pk, uid)
    if request.method == "GET":
        return _state(upload)
    offset = request.headers.get(OFFSET, "")
    if not (offset.isascii() and offset.isdigit() and len(offset) < 16):
        return JsonResponse({"message": "The block does not say where it begins."}, status=400)
    block = request.body
    if len(block) > LARGEST_BLOCK:
        return JsonResponse({"message": "The block is too large."}, status=413)
    try:
        upload = append_block(contributor=request.user, upload=upload, offset=int(offset),
                              block=block)
    except WrongOffset as wrong:
        return HttpResponse(status=409, headers={OFFSET: str(wrong.expected)})
    except OSError:
        return _no_room(upload)
    if upload.received < upload.byte_size:
        return HttpResponse(status=204, headers={OFFSET: str(upload.received)})
    return _finished(request.user, upload, 201)


def _state(upload):
    """A file that had arrived whole when the answer was lost is taken in now."""
    if upload.received < upload.byte_size:
        return JsonResponse({"offset": upload.received})
    return _finished(upload.author, upload, 200)


def _finished(contributor, upload, status):
    try:
        photo = finish_upload(contributor=contributor, upload=upload)
    except PhotoRefused as refusal:
        return JsonResponse({"message": refusal.message}, status=422)
    except OSError:
        return _no_room(upload)
    return JsonResponse({"photo": _address(photo)}, status=status)


def _no_room(upload):
    """What has arrived is kept; the script tries again, and so may a person, later."""
    logger.exception("upload %s could not be stored", upload.pk)
    return JsonResponse({"message": NO_ROOM}, status=507)


def _upload(user, pk, uid):
    unit = unit_to_change(user, pk)
    upload = PhotoUpload.objects.select_related("photo", "author").filter(
        pk=uid, unit=unit, author=user).first()
    if upload is None:
        raise Http404("No such upload.")
    return upload


def _about(body):
    """name, size, sha256 and stage; ValueError in words where the script said something odd."""
    try:
        said = json.loads(body)
    except (ValueError, RecursionError) as error:
        raise ValueError("What was said of the file is no JSON. Reload the page.") from error
    said = said if isinstance(said, dict) else {}
    name, size = said.get("name"), said.get("size")
    if not isinstance(name, str) or type(size) is not int or "\0" in name:
        raise ValueError("The file has no name or no size. Reload the page.")
    sha256, stage = said.get("sha256", ""), said.get("stage", "")
    known = isinstance(sha256, str) and len(sha256) == 64
    return {"name": name, "size": size, "sha256": sha256 if known else "",
            "stage": stage if stage in Stage.values else Stage.OTHER}


def _address(photo):
    return reverse("bench_photo", args=[photo.unit_id, photo.key])
