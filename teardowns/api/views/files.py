"""Photos and logs of public units."""
from itertools import groupby
from typing import Annotated

from django.http import Http404
from django.urls import reverse
from ninja import Query

from teardowns.api.answers import Answer
from teardowns.api.operation import reads
from teardowns.api.parameters import Key, UnitNumber
from teardowns.api.payloads.files import READING, TAKEN, named, photo_row, recording_row
from teardowns.api.schemas import files as schemas
from teardowns.api.shown import NOBODY, public_unit_shown
from teardowns.models import PhotoDerivative, Recording
from teardowns.presenting.log_chart import window_json
from teardowns.services.extract_results import results_of
from teardowns.services.merge_recordings import channels_beside
from teardowns.services.read_recording import NotRead
from teardowns.services.shown_photo import shown_photo, shown_recording

TAG = "Photos and logs"
ANNOTATIONS = 'application/ld+json; profile="http://www.w3.org/ns/anno.jsonld"'
MOST_POINTS, USUAL_POINTS, FEWEST_POINTS = 20_000, 2000, 100
Seconds = Annotated[float | None, Query(ge=-1e12, le=1e12, allow_inf_nan=False, description=(
    "s of the log; without it from its beginning, or to its end."))]


@reads("/units/{int:unit}/photos", "api_unit_photos", TAG, schemas.Photos, ends=(404, 410))
def list_photos(request, unit: UnitNumber):
    """The photos of a unit, with the addresses of their pictures"""
    shown = public_unit_shown(unit)
    then = {photo.pk: photo for photo in shown.thawed.rows["photo"]}
    found = groupby(PhotoDerivative.objects.shown_of(shown.live, in_sight=True),
                    key=lambda each: each.photo)
    return {"photos": [photo_row(then[photo.pk], list(files)) for photo, files in found
                       if photo.pk in then]}


@reads("/units/{int:unit}/photos/{key}", "api_unit_photo", TAG, schemas.Photo, ends=(404, 410))
def read_photo(request, unit: UnitNumber, key: Key):
    """One photo, its scales, and the lengths that were read off it"""
    shown = shown_photo(NOBODY, unit, key)
    files = PhotoDerivative.objects.filter(photo=shown.photo.pk).order_by("width")
    return photo_row(shown.photo, files) | {
        "annotations": reverse("api_unit_annotations", args=[unit, key]),
        "scales": [named(each, ("points", "lengths", "length_uncertainty"))
                   for each in shown.scales],
        "readings": [named(each, READING) for each in shown.readings]}


@reads("/units/{int:unit}/photos/{key}/annotations", "api_unit_annotations", TAG, dict,
       ends=(404, 410), media_type="application/ld+json")
def read_annotations(request, unit: UnitNumber, key: Key):
    """What is marked on a photo, as W3C Web Annotations

    A page of annotations in JSON-LD; “source” of each target is the picture in its full size,
    and a body that identifies names the row of evidence that the mark shows.
    """
    shown = shown_photo(NOBODY, unit, key)
    here = request.build_absolute_uri(request.path)
    items = [{**mark.body, "id": f"{here}#{mark.pk}"} for mark in shown.marks]
    for item in items:
        item.pop("@context", None)
    return Answer({"@context": "http://www.w3.org/ns/anno.jsonld", "id": here,
                   "type": "AnnotationPage", "items": items}, media_type=ANNOTATIONS)


@reads("/units/{int:unit}/recordings", "api_unit_recordings", TAG, schemas.Recordings,
       ends=(404, 410))
def list_recordings(request, unit: UnitNumber):
    """The logs of a unit"""
    shown = public_unit_shown(unit)
    live = set(Recording.objects.shown().filter(unit=unit).values_list("key", flat=True))
    return {"recordings": [recording_row(each) for each in shown.thawed.rows["recording"]
                           if each.key in live and each.is_shown]}


@reads("/units/{int:unit}/recordings/{key}", "api_unit_recording", TAG, schemas.Recording,
       ends=(404, 410))
def read_recording(request, unit: UnitNumber, key: Key):
    """One log: its conditions, what was read out of it, and what of that became evidence"""
    shown = shown_recording(NOBODY, unit, key)
    try:
        results = results_of(shown.recording)
    except (NotRead, FileNotFoundError):
        results = []
    return recording_row(shown.recording) | {
        "conditions": shown.recording.conditions, "results": results,
        "taken": [named(each, TAKEN) for each in shown.readings]}


@reads("/units/{int:unit}/recordings/{key}/values", "api_unit_recording_values", TAG,
       schemas.Values, ends=(404, 410), takes=("start", "end", "points"))
def read_values(request, unit: UnitNumber, key: Key, start: Seconds = None, end: Seconds = None,
                points: Annotated[int, Query(ge=FEWEST_POINTS, le=MOST_POINTS, description=(
                    "At most so many; the whole log as a table: see its page."))] = USUAL_POINTS):
    """Numbers of a log between two times, thinned so that no peak is lost"""
    recording = shown_recording(NOBODY, unit, key).recording
    try:
        with channels_beside(recording) as channels:
            first, last = float(channels.time[0]), float(channels.time[-1])
            ends = sorted((first if start is None else start, last if end is None else end))
            window = window_json(channels, *ends, points)
    except FileNotFoundError as error:
        raise Http404("The numbers of this log are missing.") from error
    return {name: window[name] for name in ("first", "last", "rows", "all", "time")} | {
        "channels": [{name: channel[name] for name in ("label", "unit", "values")}
                     for channel in window["channels"]]}


