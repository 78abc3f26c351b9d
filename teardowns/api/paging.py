"""Pages by cursor: each begins after the last row of the one before, however the list grows."""
import binascii
import json
from base64 import urlsafe_b64decode, urlsafe_b64encode
from collections.abc import Callable, Sequence
from typing import Any

from django.http import Http404, HttpRequest

USUAL, MOST = 25, 100               # rows of a page
LONGEST = 200                       # characters of a cursor
LARGEST = 2**63 - 1                 # what the databases count to
NO_PAGE = "There is no such page: begin at the first one, and follow “next”."


def cursor_of(*after: int | str) -> str:
    """An opaque text for the place after a row."""
    return urlsafe_b64encode(json.dumps(after).encode()).decode().rstrip("=")


def place_of(cursor: str, *kinds: type) -> tuple[Any, ...] | None:
    """What `cursor_of` was given; None for the first page. Raises Http404."""
    if not cursor:
        return None
    try:
        place = json.loads(urlsafe_b64decode(cursor + "=" * (-len(cursor) % 4)))
    except (ValueError, binascii.Error, RecursionError) as error:
        raise Http404(NO_PAGE) from error
    if not isinstance(place, list) or [type(part) for part in place] != list(kinds) or any(
            isinstance(part, int) and abs(part) > LARGEST for part in place):
        raise Http404(NO_PAGE)
    return tuple(place)


def page_of(request: HttpRequest, rows: Sequence[Any], size: int,
            place: Callable[[Any], str]) -> tuple[list[Any], str, dict[str, str]]:
    """(rows of the page, cursor of the next one or "", links for the header)

    rows : one more than the page holds, where there are more; place : the cursor after a row
    """
    shown = list(rows[:size])
    following = place(shown[-1]) if len(rows) > size else ""
    return shown, following, links_to(request, following)


def links_to(request: HttpRequest, following: str) -> dict[str, str]:
    """RFC 8288: the first page, and the next one where there is one."""
    links = {"first": _address(request, "")}
    return links | {"next": _address(request, following)} if following else links


def _address(request, cursor):
    asked = request.GET.copy()
    asked.pop("cursor", None)
    if cursor:
        asked["cursor"] = cursor
    query = f"?{asked.urlencode()}" if asked else ""
    return request.build_absolute_uri(request.path + query)
