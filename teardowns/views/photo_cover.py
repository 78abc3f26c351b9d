"""Burn a region out of a photo: its contributor on an open sheet, a moderator at any time."""
import logging

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse

from teardowns import access
from teardowns.forms.cautions import DEFERRAL
from teardowns.forms.photo_forms import CoverForm
from teardowns.imaging.refusals import Refused
from teardowns.presenting.evidence_called import evidence_called
from teardowns.presenting.photo_sheet import photo_sheet
from teardowns.services.cover_photo import cover_photo
from teardowns.services.photo_files import NOT_STORED

logger = logging.getLogger(__name__)


def photo_cover(request, pk, key):
    photo = access.photo_to_cover(request.user, pk, key)
    form = CoverForm(request.POST if request.method == "POST" else None, photo=photo)
    if form.is_bound and form.is_valid() and _covered(request, photo, form):
        return redirect(_back(request, photo))
    marks = photo.annotations.select_related("author").order_by("pk")
    return render(request, "teardowns/photo_cover.html", {
        **photo_sheet(photo, marks, (), (), evidence_called(photo.unit)), "unit": photo.unit,
        "form": form, "covers": photo.covers.select_related("author").order_by("pk"),
        "deferral": DEFERRAL,
    })


def _back(request, photo):
    """To the photo, or to the ticks from which the contributor came."""
    if request.GET.get("back") == "submit" and access.may_change(request.user, photo.unit):
        return f"{reverse('bench_submit', args=[photo.unit_id])}#check-{photo.key}"
    return photo.get_absolute_url()


def _covered(request, photo, form):
    try:
        cover_photo(author=request.user, photo=photo, reason=form.cleaned_data["reason"],
                    box=form.box())
    except Refused as refusal:
        form.add_error(None, refusal.message)
        return False
    except OSError:
        logger.exception("photo %s could not be covered", photo.pk)
        form.add_error(None, NOT_STORED)
        return False
    messages.success(request, "The region is burnt out of every picture of this photo; the "
                              "original is locked away.")
    return True
