"""One proposed correction: why, where it stands, and what it changes."""
from django.shortcuts import redirect, render
from django.urls import reverse

from teardowns import access
from teardowns.models import Status
from teardowns.presenting.difference_sheet import difference_sheet
from teardowns.services.difference_of_work import difference_of_correction


def unit_correction(request, pk, correction):
    found = access.correction_to_see(request.user, pk, correction)
    unit = found.unit
    if found.status == Status.PUBLISHED:
        return redirect("unit_difference", unit.pk, found.publication.number, found.base.number)
    pages = (reverse("unit_version", args=[unit.pk, found.base.number]), "")
    return render(request, "teardowns/unit_correction.html", {
        "unit": unit, "correction": found, "is_own": found.author_id == request.user.pk,
        "difference": difference_sheet(*difference_of_correction(found, unit).arguments, *pages)})
