"""The photos of a bench sheet: send many at once, see what was kept and what was not."""
import logging
from pathlib import Path

from django.conf import settings
from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.csrf import csrf_exempt, csrf_protect

from core.buckets import HOUR, limited
from core.outages import AWAY, outage_of
from teardowns.access import unit_to_change
from teardowns.forms.cautions import DEFERRAL
from teardowns.imaging.limits import MAX_BYTES
from teardowns.imaging.sniff import kinds_taken
from teardowns.models import Stage, UnsavedSection
from teardowns.presenting.photo_sheet import gallery
from teardowns.services.photo_files import NOT_STORED
from teardowns.services.receive_photo import NO_ROOM, PhotoRefused, receive_photo, shown_name
from teardowns.views.bench_panel import panel
from teardowns.views.bench_rail import rail
from teardowns.views.limited_upload import LimitedUpload

logger = logging.getLogger(__name__)
FILES = 5                 # of a form, where its sending is counted beside files that come in blocks


@limited("upload_forms", account=(settings.UPLOADS / FILES, HOUR),
         network=(2 * settings.UPLOADS / FILES, HOUR))
@csrf_exempt          # the token is checked below, after the handler that watches the size is set
def bench_photos(request, pk):
    handler = LimitedUpload(request)
    request.upload_handlers = [handler]
    return _checked(request, pk, handler)


@csrf_protect
def _checked(request, pk, handler):
    unit = unit_to_change(request.user, pk)
    if request.method == "POST":
        return _answer(request, unit, handler)
    return _page(request, unit)


def _answer(request, unit, handler):
    files = request.FILES.getlist("photos")
    stage = request.POST.get("stage", "")
    stage = stage if stage in Stage.values else Stage.OTHER
    refused = [f"{shown_name(name)}: it is larger than {MAX_BYTES / 1e6:.0f} MB. Send a smaller "
               "copy." for name in handler.too_large]
    kept, known = 0, 0
    for file in files:
        try:
            received = receive_photo(contributor=request.user, unit_pk=unit.pk, name=file.name,
                                     path=Path(file.temporary_file_path()), stage=stage)
            kept, known = kept + received.is_new, known + (not received.is_new)
        except PhotoRefused as refusal:
            refused.append(str(refusal))
        except OSError as error:
            logger.exception("a photo of unit %s could not be stored", unit.pk)
            why = NOT_STORED if outage_of(error) == AWAY else NO_ROOM
            refused.append(f"{shown_name(file.name)}: {why}")
    if not files and not refused:
        refused = ["No file was chosen. Choose one or more pictures, then send."]
    if refused:
        return _page(request, unit, refused, kept, stage)
    messages.success(request, _said(kept, known))
    return redirect("bench_photos", unit.pk)


def _said(kept, known):
    said = [f"{kept} photo{'' if kept == 1 else 's'} kept."]
    if known:
        said.append(f"{known} of the files {'was' if known == 1 else 'were'} here already.")
    return " ".join(said)


def _page(request, unit, refused=(), kept=0, stage=Stage.OPENED):
    unsaved = UnsavedSection.objects.filter(unit=unit, author=request.user)
    kinds = kinds_taken()
    *others, last = kinds.values()
    return render(request, "teardowns/bench_photos.html", {
        "unit": unit, "refused": refused, "kept": kept, "stages": Stage.choices, "stage": stage,
        "gallery": gallery(unit), "deferral": DEFERRAL, "panel": panel(unit),
        "rail": rail(unit, None, set(unsaved.values_list("section", flat=True))),
        "limit": f"{MAX_BYTES / 1e6:.0f}", "accept": ",".join(kinds),
        "kinds": f"{', '.join(others)} or {last}",
    })
