"""A reviewer measures a length once more, without being shown the first reading."""
from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render

from teardowns import access
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.photo_measuring_forms import USUAL_DEGREE, ReadForm
from teardowns.imaging.slots import SlotError
from teardowns.presenting.evidence_called import evidence_called
from teardowns.presenting.photo_sheet import photo_sheet
from teardowns.services.click_photo import clicks_of
from teardowns.services.measure_photo import measure_again


def photo_read_again(request, pk, key, reading):
    photo = access.photo_to_read_again(request.user, pk, key)
    first = photo.readings.filter(pk=reading, blind=False).first()
    if first is None:
        raise Http404("No such reading.")
    scales = list(photo.scales.select_related("author").order_by("pk"))
    form = ReadForm(request.POST if request.method == "POST" else None, photo=photo, scales=scales,
                    initial={"scale": first.scale_id, "shape": first.shape,
                             "surface": first.narrowest_groove is not None and not first.slot,
                             "pollution_degree": first.pollution_degree or USUAL_DEGREE,
                             "clearance": first.clearance and f"{1e3 * first.clearance:g}"})
    if form.is_bound and form.is_valid() and _saved(request, photo, first, form, scales):
        return redirect("unit_photo", pk, key)
    names = evidence_called(photo.unit)
    marks = photo.annotations.select_related("author").order_by("pk")
    return render(request, "teardowns/photo_read_again.html", {
        **photo_sheet(photo, marks, scales, (), names, hidden=first.shows),
        "unit": photo.unit, "form": form, "round_slot": bool(first.slot),
        "name": names.get(first.shows, first.shows), "deferral": DEFERRAL,
    })


def _saved(request, photo, first, form, scales):
    drawn = form.drawn(scales, clicks_of(request.user, photo))
    try:
        measure_again(reviewer=request.user, photo=photo, shows=first.shows, drawn=drawn)
    except SlotError as error:
        form.add_error("slot", str(error))
        return False
    except ValueError as error:
        form.add_error("points", str(error))
        return False
    messages.success(request, "Your reading stands beside the first one now.")
    return True
