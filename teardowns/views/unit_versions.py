"""All versions of a unit, the newest first; choose any two to compare."""
from django.shortcuts import redirect, render

from core.whole_number import whole_number
from teardowns import access
from teardowns.models import Correction, Unit
from teardowns.presenting.version_list import version_rows
from teardowns.services.open_correction import sentence_of_open
from teardowns.views.tombstone import tombstone

UNSHOWN = ("document", "frozen", "words", "assessment__payload")


def unit_versions(request, pk):
    return tombstone(request, pk) or _versions(request, pk)


def _versions(request, pk):
    unit = access.unit_to_see(request.user, pk, Unit.objects.select_related("publication"))
    publications = unit.publications.defer(*UNSHOWN).select_related(
        "moderator", "assessment", "correction__author").order_by("-number")
    rows = version_rows(unit, publications)
    chosen = _chosen(request, {row.number for row in rows})
    if chosen:
        return redirect("unit_difference", unit.pk, *chosen)
    open_one = Correction.objects.filter(unit=unit, closed_at=None).select_related("author").first()
    return render(request, "teardowns/unit_versions.html", {
        "unit": unit, "versions": rows, "can_compare": len(rows) > 1,
        "open": open_one and sentence_of_open(open_one, request.user),
        "own_open": open_one and open_one.author_id == request.user.pk,
        "may_correct": unit.is_public and open_one is None,
        "may_withdraw": unit.is_public and access.may_withdraw(request.user, unit),
        "own": _own(request.user, unit)})


def _chosen(request, numbers):
    """The two versions that were chosen, "is now" first; None where they are no two."""
    was, now = (whole_number(request.GET.get(name, "")) for name in ("was", "now"))
    return (now, was) if was != now and {was, now} <= numbers else None


def _own(user, unit):
    """This person's corrections of the unit that ended, the newest first."""
    if not user.is_authenticated:
        return []
    ended = unit.corrections.filter(author=user.pk, closed_at__isnull=False)
    return ended.exclude(status="published").defer("proposal")
