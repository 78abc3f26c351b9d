"""One log of a unit: its chart, what was read out of it, and how surely."""
import logging

from django.http import Http404
from django.shortcuts import render

from teardowns import access
from teardowns.engine.safety_words import DEFERRAL
from teardowns.presenting.recording_sheet import columns_said, recording_sheet
from teardowns.presenting.recording_targets import taken_rows
from teardowns.services.extract_results import results_of
from teardowns.services.merge_recordings import channels_beside
from teardowns.services.shown_photo import shown_recording
from teardowns.services.take_result import taken_among

logger = logging.getLogger(__name__)


def unit_recording(request, pk, key):
    shown = shown_recording(request.user, pk, key, request.GET.get("version", ""))
    recording = shown.recording
    try:
        with channels_beside(recording) as channels:
            sheet = recording_sheet(recording, channels, results_of(recording), taken_rows(
                recording, taken_among(shown.readings, shown.measurements)))
    except FileNotFoundError as error:
        logger.exception("channels of recording %s are missing", recording.pk)
        raise Http404("The numbers of this log are missing.") from error
    return render(request, "teardowns/unit_recording.html", {
        **sheet, "unit": recording.unit, "deferral": DEFERRAL,
        "columns": columns_said(recording),
        "may_change": access.may_change(request.user, recording.unit),
        "may_have": request.user.pk == recording.author_id,
        "may_moderate": access.may_decide(request.user, recording.unit),
    })
