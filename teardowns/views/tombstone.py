"""What stands at the address of a unit that was withdrawn: when, by which role, and why."""
from django.shortcuts import render

from teardowns import access
from teardowns.models import Status, Unit
from teardowns.presenting.tombstone_sheet import tombstone_sheet
from teardowns.services.reinstate_unit import last_withdrawal


def tombstone(request, pk):
    """The page (410), or None where the unit is not withdrawn."""
    unit = Unit.objects.filter(
        pk=pk, status=Status.WITHDRAWN, quarantined_at=None).select_related("publication").first()
    if unit is None:
        return None
    return render(request, "teardowns/unit_withdrawn.html", {
        "sheet": tombstone_sheet(unit, last_withdrawal(unit)),
        "may_reinstate": access.may_moderate(request.user)
        and access.may_decide(request.user, unit)}, status=410)
