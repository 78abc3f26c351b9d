"""What stands where nothing is found: below the address of a withdrawn unit, its tombstone."""
from django.views.defaults import page_not_found

from core.problems import problem, speaks_json
from teardowns.views.tombstone import tombstone


def not_found(request, exception):
    """Links to any page of a withdrawn unit go on leading somewhere; all else is as usual."""
    if speaks_json(request):
        return problem(404)
    match = request.resolver_match
    if match and match.route.startswith("units/<int:pk>/") and request.method in ("GET", "HEAD"):
        stone = tombstone(request, match.kwargs["pk"])
        if stone is not None:
            return stone
    return page_not_found(request, exception)
