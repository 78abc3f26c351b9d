"""The numbers of a log: a window of them for a chart, all as text, the drawing, the file itself."""
from contextlib import ExitStack
from math import isfinite

from django.core.files.storage import storages
from django.http import FileResponse, Http404, HttpResponse, JsonResponse, StreamingHttpResponse
from django.utils.cache import patch_cache_control

from core.templatetags.said import said_picture
from core.words.said import said
from teardowns import access
from teardowns.figures.log_chart import log_chart
from teardowns.logs.extracted import result_from
from teardowns.logs.written import rows_as_text
from teardowns.presenting.log_chart import POINTS, log_figure, window_json
from teardowns.presenting.recording_sheet import title
from teardowns.services.extract_results import results_of
from teardowns.services.merge_recordings import channels_beside
from teardowns.services.photo_files import original_name
from teardowns.services.shown_photo import shown_recording

DRAWN_WIDTH = 960           # px of a drawing that stands alone
USUAL_POINTS = 2000


def recording_window(request, pk, key):
    """?from=&to=&points=: what lies between two times, thinned to so many points."""
    recording = shown_recording(request.user, pk, key, request.GET.get("version", "")).recording
    try:
        start, end, points = _asked(request.GET)
    except ValueError:
        return JsonResponse({"message": said("“from” and “to” are seconds, “points” is a whole "
                                             "number: write numbers.")}, status=400)
    with ExitStack() as stack:
        channels = _opened(stack, recording)
        first, last = float(channels.time[0]), float(channels.time[-1])
        ends = sorted((first if start is None else start, last if end is None else end))
        return JsonResponse(_said(window_json(channels, *ends, points)))


def _said(window):
    """Each panel under its name in the reader's language."""
    return window | {"channels": [channel | {"panel": said(channel["panel"])}
                                  for channel in window["channels"]]}


def _asked(typed):
    ends = [float(typed[name]) if typed.get(name) else None for name in ("from", "to")]
    if any(end is not None and not isfinite(end) for end in ends):
        raise ValueError
    points = int(typed["points"]) if typed.get("points") else USUAL_POINTS
    return *ends, min(max(points, POINTS[0]), POINTS[1])


def recording_chart(request, pk, key):
    """The whole log as a drawing that prints alone."""
    recording = shown_recording(request.user, pk, key, request.GET.get("version", "")).recording
    with ExitStack() as stack:
        channels = _opened(stack, recording)
        results = [result_from(result) for result in results_of(recording)]
        drawing = log_chart(log_figure("log", title(recording), channels, results), DRAWN_WIDTH)
    return HttpResponse(said_picture(drawing), content_type="image/svg+xml", headers={
        "Content-Disposition": f'inline; filename="{recording.key}.svg"'})


def recording_values(request, pk, key):
    """Every sample of the channels that are used, in SI, as a table of text."""
    recording = shown_recording(request.user, pk, key, request.GET.get("version", "")).recording
    stack = ExitStack()
    channels = _opened(stack, recording)
    return StreamingHttpResponse(
        _lines(stack, channels), content_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{recording.key}.csv"'})


def _lines(stack, channels):
    with stack:
        yield from rows_as_text(channels, float(channels.time[0]), float(channels.time[-1]))


def _opened(stack, recording):
    """The channels, until the stack is closed."""
    try:
        return stack.enter_context(channels_beside(recording))
    except FileNotFoundError as error:
        raise Http404("The numbers of this log are missing.") from error


def recording_original(request, pk, key):
    """The file as it came in, for who sent it."""
    recording = access.recording_with_original(request.user, pk, key)
    try:
        content = storages["originals"].open(original_name(recording.sha256))
    except FileNotFoundError as error:
        raise Http404("The file is missing.") from error
    answer = FileResponse(content, as_attachment=True, content_type="application/octet-stream",
                          filename=recording.original_name or f"{recording.key}.txt")
    patch_cache_control(answer, private=True, no_store=True)
    return answer
