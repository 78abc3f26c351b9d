"""One line and one count for each request, whatever becomes of it."""
import logging
from time import perf_counter

from core.operation import counts
from core.operation.logs import route_of

logger = logging.getLogger("core.requests")
METHODS = {"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"}


def seen_requests(get_response):
    """Middleware: stands inside of `numbered_requests` and outside of all else."""

    def middleware(request):
        begun = perf_counter()
        response = get_response(request)
        seconds = perf_counter() - begun
        method = request.method if request.method in METHODS else "other"
        route = route_of(request)
        counts.count_request(method, route, response.status_code, seconds)
        logger.info("%s %s %s", method, route, response.status_code, extra={
            "method": method, "route": route, "status": response.status_code,
            "milliseconds": round(seconds * 1000, 1), "user": _person(request)})
        return response

    return middleware


def _person(request):
    """Number of who is signed in, as far as the request has found out; nothing is asked for it."""
    user = getattr(request, "_cached_user", None) or getattr(request, "user", None)
    if getattr(request, "api_token", None) is not None:
        return request.api_token.owner_id
    return user.pk if user is not None and hasattr(request, "_cached_user") else None
