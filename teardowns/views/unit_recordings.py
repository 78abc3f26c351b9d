"""All logs of a unit, and their load curves beside those of other units."""
from django.shortcuts import render

from core.whole_number import whole_number
from teardowns import access
from teardowns.engine.safety_words import DEFERRAL
from teardowns.logs.load_curve import load_curve
from teardowns.models import Publication, Recording, RecordingKind, Unit
from teardowns.presenting.load_following import load_following
from teardowns.presenting.recorded_curves import shown_curves
from teardowns.presenting.recording_sheet import recording_row
from teardowns.services.extract_results import results_of
from teardowns.services.read_recording import NotRead, channels_of
from teardowns.services.shown_unit import WORKING
from teardowns.services.thaw import thawed_recordings

MOST_UNITS, MOST_CURVES = 6, 12
WITH_CURVES = (RecordingKind.LOAD_SWEEP, RecordingKind.ENDURANCE)


def unit_recordings(request, pk):
    """?with=8&with=9: other units whose curves stand beside."""
    unit = access.unit_to_see(request.user, pk)
    working = request.GET.get("version") == WORKING and access.sees_working_copy(request.user, unit)
    named = (whole_number(one) for one in request.GET.getlist("with"))
    wanted = [pk for pk in named if pk is not None][:MOST_UNITS - 1]
    others = Unit.objects.published().filter(pk__in=wanted).exclude(pk=pk)
    units = [unit, *others.order_by("pk")]
    rows = _logs(unit, units, working)
    mine = [row for row in rows if row.unit_id == unit.pk]
    swept = sorted((row for row in rows if row.kind in WITH_CURVES),
                   key=lambda row: (row.unit_id != unit.pk, row.unit_id, row.pk))
    return render(request, "teardowns/unit_recordings.html", {
        "unit": unit, "deferral": DEFERRAL, "others": units[1:],
        "rows": [recording_row(row) | {"address": row.get_absolute_url()} for row in mine],
        "curves": shown_curves(((row, _curve(row)) for row in swept[:MOST_CURVES]),
                               several_units=len(units) > 1),
        "left_out": max(len(swept) - MOST_CURVES, 0),
        "following": load_following(
            (row, results) for row in mine if row.kind == RecordingKind.WAVEFORM
            if (results := _results(row))),
        "choices": _choices(unit, units),
    })


def _logs(unit, units, working):
    """Logs of public versions as these have them; of this unit's working copy, as they are."""
    live = list(Recording.objects.shown().filter(unit__in=units).select_related("unit", "port"))
    public = [one.publication_id for one in units
              if one.publication_id and not (working and one == unit)]
    then = {unit: {log.key: log for log in logs} for unit, logs in thawed_recordings(
        Publication.objects.filter(pk__in=public)).items()}
    found = []
    for row in live:
        log = then[row.unit_id].get(row.key) if row.unit_id in then else row
        if log is not None:
            log.unit = row.unit
            found.append(log)
    return found


def _curve(recording):
    try:
        with channels_of(recording) as channels:
            return load_curve(channels)
    except (NotRead, FileNotFoundError):
        return ()


def _results(recording):
    try:
        return results_of(recording)
    except (NotRead, FileNotFoundError):
        return []


def _choices(unit, units):
    """Units that have a load log of their own."""
    chosen = {one.pk for one in units}
    found = Unit.objects.published().exclude(pk=unit.pk).filter(
        pk__in=Recording.objects.shown().filter(
            kind__in=WITH_CURVES, published_at__isnull=False).values("unit"))
    return [{"pk": pk, "title": title, "chosen": pk in chosen}
            for pk, title in found.order_by("title").values_list("pk", "title")[:200]]
