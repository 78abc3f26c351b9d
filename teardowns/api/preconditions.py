"""Optimistic locking: a change names by If-Match the state that it was made from."""
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.utils.http import parse_etags

from core.problems import problem
from teardowns.api.answers import content_of, etag_of
from teardowns.api.faults import MEANWHILE

SAY_WHICH = "Send If-Match with the ETag that you got with what you change, so that nobody’s " \
            "work is written over unseen."
THERE_ALREADY = "There is something at this address already, and If-None-Match: * asked for " \
                "nothing there. Nothing was changed."
NOTHING_THERE = "What If-Match speaks of is not there any more. Nothing was changed."


def unmet(request: HttpRequest, current: Any, yours: Any, *, required: bool = True
          ) -> HttpResponse | None:
    """The answer that refuses the change (412, 428), or None where it may go on.

    current : payload of what stands there now, None where nothing does
    """
    is_sent = "If-Match" in request.headers
    if current is None:
        return problem(412, NOTHING_THERE, yours=yours, current=None) if is_sent else None
    if request.headers.get("If-None-Match") == "*":
        return stale(current, yours, THERE_ALREADY)
    if not is_sent:
        return problem(428, SAY_WHICH) if required else None
    wanted = parse_etags(request.headers["If-Match"])        # what is no tag matches nothing
    if "*" in wanted or etag_of(content_of(current)) in wanted:
        return None
    return stale(current, yours)


def stale(current: Any, yours: Any, words: str = MEANWHILE) -> HttpResponse:
    """412 with both texts, and the ETag with which another try would be taken."""
    tag = etag_of(content_of(current))
    return problem(412, words, headers={"ETag": tag}, current=current, yours=yours, etag=tag)
