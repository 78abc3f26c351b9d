"""What stands where a withdrawn unit was: 410, when and why."""
from core.problems import problem
from teardowns.models import Status, Unit
from teardowns.presenting.tombstone_sheet import tombstone_sheet
from teardowns.services.reinstate_unit import last_withdrawal


def gone(request):
    """The answer, or None where the address is of no withdrawn unit."""
    given = request.resolver_match.kwargs if request.resolver_match else {}
    if request.method != "GET" or not request.resolver_match.view_name.startswith("api_unit") \
            or "unit" not in given:
        return None
    unit = Unit.objects.filter(pk=given["unit"], status=Status.WITHDRAWN, quarantined_at=None
                               ).select_related("publication").first()
    if unit is None:
        return None
    sheet = tombstone_sheet(unit, last_withdrawal(unit))
    told = {name: sheet[name] for name in ("on", "by", "reason", "facts", "rule", "versions",
                                           "digest")}
    return problem(410, f"This record was withdrawn: {sheet['reason'] or sheet['facts']}",
                   withdrawn=told, successor=unit.successor_id)
