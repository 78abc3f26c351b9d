"""Two versions of a unit side by side, at a permanent address."""
from django.http import Http404
from django.shortcuts import render
from django.urls import reverse

from teardowns import access
from teardowns.presenting.difference_sheet import difference_sheet
from teardowns.services.difference_of_work import difference_of_versions
from teardowns.views.kept_pages import kept_with_unit
from teardowns.views.tombstone import tombstone


@kept_with_unit
def unit_difference(request, pk, number, other):
    """What version `number` has otherwise than version `other`."""
    return tombstone(request, pk) or _difference(request, pk, number, other)


def _difference(request, pk, number, other):
    unit = access.unit_to_see(request.user, pk)
    found = {one.number: one for one in unit.publications.filter(
        number__in=(number, other)).select_related("assessment").defer("frozen")}
    if number not in found or other not in found:
        raise Http404("No such versions.")
    was, now = found[other], found[number]
    pages = [reverse("unit_version", args=[unit.pk, one]) for one in (other, number)]
    return render(request, "teardowns/unit_difference.html", {
        "unit": unit, "was": was, "now": now,
        "difference": difference_sheet(*difference_of_versions(was, now).arguments, *pages)})
