"""The logs of a bench sheet: send them, see how far each came."""
import logging
from pathlib import Path

from django.conf import settings
from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.csrf import csrf_exempt, csrf_protect

from core.buckets import HOUR, limited
from teardowns.access import unit_to_change
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.recording_forms import ReceiveForm
from teardowns.logs.limits import MOST_BYTES
from teardowns.models import RecordingKind, UnsavedSection
from teardowns.presenting.recording_sheet import recording_row
from teardowns.services.photo_files import NOT_STORED
from teardowns.services.receive_photo import shown_name
from teardowns.services.receive_recording import (
    TOO_LARGE,
    About,
    RecordingRefused,
    receive_recording,
)
from teardowns.views.bench_panel import panel
from teardowns.views.bench_rail import LOG, rail
from teardowns.views.limited_upload import LimitedUpload

logger = logging.getLogger(__name__)
FILES = 5                 # of a form, where its sending is counted beside files that come in blocks
CHOOSE_AGAIN = "Nothing was kept: set right the entry below, then choose the files again."


@limited("upload_forms", account=(settings.UPLOADS / FILES, HOUR),
         network=(2 * settings.UPLOADS / FILES, HOUR))
@csrf_exempt          # the token is checked below, after the handler that watches the size is set
def bench_recordings(request, pk):
    handler = LimitedUpload(request, MOST_BYTES)
    request.upload_handlers = [handler]
    return _checked(request, pk, handler)


@csrf_protect
def _checked(request, pk, handler):
    unit = unit_to_change(request.user, pk)
    if request.method == "GET":
        return _page(request, unit, _form(unit))
    form = _form(unit, request.POST)
    refused = [f"{shown_name(name)}: {TOO_LARGE}" for name in handler.too_large]
    files = request.FILES.getlist("files")
    if not files and not refused:
        refused.append("No file was chosen. Choose one or more logs, then send.")
    if not form.is_valid():
        again = [CHOOSE_AGAIN] if files else []
        return _page(request, unit, form, [*again, *refused])
    kept, more = _taken(request, unit, files, form.cleaned_data)
    refused += more
    if refused:
        return _page(request, unit, form, refused, len(kept))
    if len(kept) == 1:
        return redirect("bench_recording", pk, kept[0].key)
    messages.success(request, f"{len(kept)} logs kept. Say of each how it is read.")
    return redirect("bench_recordings", pk)


def _form(unit, data=None):
    ports = unit.ports.order_by("pk").values_list("key", "label")
    return ReceiveForm(data, ports=list(ports))


def _taken(request, unit, files, said):
    kept, refused = [], []
    about = About(said["kind"], said["port"], said["instrument"])
    for file in files:
        try:
            kept.append(receive_recording(
                contributor=request.user, unit_pk=unit.pk, name=file.name, about=about,
                path=Path(file.temporary_file_path())).recording)
        except RecordingRefused as refusal:
            refused.append(str(refusal))
        except OSError:
            logger.exception("a log of unit %s could not be stored", unit.pk)
            refused.append(f"{shown_name(file.name)}: {NOT_STORED}")
    return kept, refused


def _page(request, unit, form, refused=(), kept=0):
    rows = unit.recordings.kept().select_related("port")
    unsaved = UnsavedSection.objects.filter(unit=unit, author=request.user)
    return render(request, "teardowns/bench_recordings.html", {
        "unit": unit, "form": form, "refused": refused, "kept": kept, "deferral": DEFERRAL,
        "rows": [recording_row(row) | {"address": _address(unit, row)} for row in rows],
        "rail": rail(unit, LOG, set(unsaved.values_list("section", flat=True))),
        "panel": panel(unit),
        "limit": f"{MOST_BYTES / 1e6:.0f}",
    })


def _address(unit, row):
    is_text = row.kind == RecordingKind.PROTOCOL
    return "" if is_text else reverse("bench_recording", args=[unit.pk, row.key])
