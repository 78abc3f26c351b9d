"""One photo of a unit: the picture, its marks, what was read off it and how surely."""
from django.shortcuts import render

from teardowns import access
from teardowns.engine.safety_words import DEFERRAL
from teardowns.presenting.evidence_called import evidence_called
from teardowns.presenting.photo_sheet import gallery_neighbours, photo_sheet


def unit_photo(request, pk, key):
    photo = access.photo_to_see(request.user, pk, key)
    sheet = photo_sheet(photo, photo.annotations.select_related("author").order_by("pk"),
                        list(photo.scales.select_related("author").order_by("pk")),
                        list(photo.readings.select_related("author", "clicks")),
                        evidence_called(photo.unit), meant=request.GET.get("shows", ""),
                        temperatures=list(photo.temperatures.select_related("author")))
    return render(request, "teardowns/unit_photo.html", {
        **sheet, "unit": photo.unit, "deferral": DEFERRAL,
        "may_change": access.may_change(request.user, photo.unit),
        "may_cover": access.may_moderate(request.user),
        "may_read_again": access.may_read_again(request.user, photo.unit),
        **gallery_neighbours(list(photo.unit.photos.shown()), photo),
    })
