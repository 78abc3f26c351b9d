"""Photos and logs into one's own open sheet: the file as the body, or in a form."""
import tempfile
from contextlib import contextmanager
from pathlib import Path as File
from typing import Annotated

from django.conf import settings
from django.urls import reverse
from ninja import Query

from core.problems import problem
from teardowns.access import unit_to_change
from teardowns.api.answers import Answer, written
from teardowns.api.faults import FAULTY
from teardowns.api.idempotency import once_by_content
from teardowns.api.operation import reads, writes
from teardowns.api.parameters import UnitNumber
from teardowns.api.payloads.files import photo_row, recording_row
from teardowns.api.schemas import files as schemas
from teardowns.api.texts import WITHOUT_NUL
from teardowns.imaging.limits import MAX_BYTES
from teardowns.logs.limits import MOST_BYTES
from teardowns.models import PhotoDerivative, Recording, RecordingKind, Stage
from teardowns.services.photo_files import digest
from teardowns.services.receive_photo import receive_photo
from teardowns.services.receive_recording import About, receive_recording
from teardowns.views.limited_upload import LimitedUpload

TAG = "Bench"
PIECE = 1 << 16
FORM = "multipart/form-data"
NO_FILE = "No file came with this request: send it as the body, or in a form as “file”."
TOO_LARGE = "The file is larger than {:.0f} MB: send a smaller copy, or a part of it."
NO_STAGE = "Choose one of {}."
Name = Annotated[str, Query(max_length=255, pattern=WITHOUT_NUL,
                            description="Name of the file; of a form its own.")]
BODY = {"required": True, "content": {
    "application/octet-stream": {"schema": {"type": "string", "format": "binary"}},
    FORM: {"schema": {"type": "object", "required": ["file"], "properties": {
        "file": {"type": "string", "format": "binary"}}}}}}


class TooLarge(Exception):
    """The file is larger than is taken."""


@reads("/bench/{int:unit}/photos", "api_bench_photos", TAG, schemas.Photos, private=True)
def list_own_photos(request, unit: UnitNumber):
    """The photos of your open sheet"""
    own = unit_to_change(request.user, unit)
    found = {}
    for each in PhotoDerivative.objects.shown_of(own):
        found.setdefault(each.photo, []).append(each)
    return {"photos": [photo_row(photo, files) for photo, files in found.items()]}


@writes("post", "/bench/{int:unit}/photos", "api_bench_photos", TAG, schemas.Kept, status=201,
        ends=(404, 409, 507), takes=("stage", "name"), keyed=False, body=BODY)
def send_photo(request, unit: UnitNumber, stage: Annotated[str, Query(
        max_length=40, description=f"One of {', '.join(Stage.values)}.")] = Stage.OTHER,
        name: Name = "photo"):
    """Send a photo; metadata are taken out of what others see

    The same file again is the same photo: 201 with “is_new” false.
    """
    own = unit_to_change(request.user, unit)
    if stage not in Stage.values:
        return _no_choice("stage", Stage.values)

    def keep(path, file_name):
        made = receive_photo(contributor=request.user, unit_pk=own.pk, path=path, name=file_name,
                             stage=stage)
        return _kept("photo", made.photo, made.is_new)
    return _received(request, MAX_BYTES, name, keep)


@reads("/bench/{int:unit}/recordings", "api_bench_recordings", TAG, schemas.Recordings,
       private=True)
def list_own_recordings(request, unit: UnitNumber):
    """The logs of your open sheet, read or not"""
    own = unit_to_change(request.user, unit)
    logs = Recording.objects.kept().filter(unit=own).select_related("port").order_by("pk")
    return {"recordings": [recording_row(each) for each in logs]}


@writes("post", "/bench/{int:unit}/recordings", "api_bench_recordings", TAG, schemas.Kept,
        status=201, ends=(404, 409, 507), takes=("kind", "name", "port", "instrument"),
        keyed=False, body=BODY)
def send_recording(request, unit: UnitNumber, kind: Annotated[str, Query(
        max_length=40, description=f"One of {', '.join(RecordingKind.values)}.")],
        name: Name = "log.csv",
        port: Annotated[str, Query(max_length=64, pattern="^[a-z0-9-]*$", description=(
            "Key of the port that it was taken at."))] = "",
        instrument: Annotated[str, Query(max_length=120, pattern=WITHOUT_NUL,
                                          description="What wrote it.")] = ""):
    """Send an instrument's log: a table of text

    How its columns are read is confirmed on its page; a number is never guessed from.
    """
    own = unit_to_change(request.user, unit)
    if kind not in RecordingKind.values:
        return _no_choice("kind", RecordingKind.values)

    def keep(path, file_name):
        made = receive_recording(contributor=request.user, unit_pk=own.pk, path=path,
                                 name=file_name, about=About(kind, port, instrument))
        return _kept("recording", made.recording, made.is_new)
    return _received(request, MOST_BYTES, name, keep)


def _no_choice(parameter, choices):
    words = NO_STAGE.format(", ".join(choices))
    return problem(422, FAULTY, errors=[{"detail": words, "parameter": parameter}])


def _kept(what, row, is_new):
    href = reverse(f"api_bench_{what}s", args=[row.unit_id])
    return Answer({"key": row.key, "href": href, "sha256": row.sha256, "is_new": is_new,
                   "page": reverse(f"bench_{what}", args=[row.unit_id, row.key])}, 201, href)


def _received(request, most, name, keep):
    """The file in a place of its own while it is taken in; once a key, without a transaction."""
    try:
        with _arrived(request, most, name) as (path, file_name):
            if path is None:
                return problem(422, FAULTY, errors=[{"detail": NO_FILE, "pointer": ""}])
            return once_by_content(request, digest(path),
                                   lambda: written(request, keep(path, file_name)))
    except TooLarge:
        return problem(413, TOO_LARGE.format(most / 1e6))


@contextmanager
def _arrived(request, most, name):
    if request.content_type == FORM:
        handler = LimitedUpload(request, most)
        request.upload_handlers = [handler]
        file = request.FILES.get("file")
        if handler.too_large:
            raise TooLarge
        yield (File(file.temporary_file_path()), file.name) if file else (None, "")
        return
    settings.INCOMING.mkdir(parents=True, exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=settings.INCOMING, prefix="sent-") as file:
        size = 0
        while piece := request.read(PIECE):
            size += len(piece)
            if size > most:
                raise TooLarge
            file.write(piece)
        file.flush()
        yield (File(file.name), name) if size else (None, "")
