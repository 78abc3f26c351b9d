"""One photo of a unit: the picture, its marks, what was read off it and how surely."""
from django.db.models import Q
from django.shortcuts import render

from teardowns import access
from teardowns.engine.safety_words import DEFERRAL
from teardowns.presenting.evidence_called import called_in, evidence_called
from teardowns.presenting.photo_sheet import gallery_neighbours, photo_sheet
from teardowns.services.shown_photo import shown_photo
from teardowns.views.kept_pages import kept_with_unit


@kept_with_unit
def unit_photo(request, pk, key):
    shown = shown_photo(request.user, pk, key, request.GET.get("version", ""))
    photo = shown.photo
    names = called_in(shown.thawed.rows) if shown.thawed else evidence_called(photo.unit)
    sheet = photo_sheet(photo, shown.marks, shown.scales, shown.readings, names,
                        meant=request.GET.get("shows", ""), temperatures=shown.temperatures)
    return render(request, "teardowns/unit_photo.html", {
        **sheet, "unit": photo.unit, "deferral": DEFERRAL,
        "may_change": access.may_change(request.user, photo.unit),
        "may_cover": access.may_moderate(request.user),
        "may_read_again": access.may_read_again(request.user, photo.unit),
        **gallery_neighbours(_beside(shown), photo),
    })


def _beside(shown):
    """The unit's photos that are of the same version as this one."""
    photos = shown.photo.unit.photos.shown()
    if shown.thawed:
        photos = photos.filter(pk__in=[photo.pk for photo in shown.thawed.rows["photo"]])
        photos = photos.with_hidden().filter(Q(is_hidden=False) | Q(pk=shown.photo.pk))
    return list(photos)
