"""What is wrong, said to a program: application/problem+json (RFC 9457)."""
import json
from collections.abc import Iterable, Mapping
from http import HTTPStatus
from typing import Any

from django.http import HttpRequest, HttpResponse

PREFIX = "/api/v1/"
MEDIA_TYPE = "application/problem+json"
WORDS = {
    400: "The request cannot be read as it was sent.",
    401: "This needs a token: make one under Account, API tokens, and send it as “Authorization: "
         "Bearer …”.",
    403: "Your account does not allow this.",
    404: "There is nothing at this address.",
    405: "This address does not take this method: see the header Allow.",
    413: "What was sent is too large.",
    429: "Too many requests: come back after the seconds in the header Retry-After.",
    500: "Something broke on our side and was written down. Nothing of yours was changed; try "
         "again later.",
}


def speaks_json(request: HttpRequest) -> bool:
    """Whether an address is of the API, whatever becomes of the request."""
    return request.path_info.startswith(PREFIX)


def problem(status: int, detail: str = "", *, errors: Iterable[Mapping[str, str]] = (),
            headers: Mapping[str, str] | None = None, **more: Any) -> HttpResponse:
    """errors : each a `detail` and its place, a JSON `pointer` (RFC 6901) into the body or the
    name of a `parameter` or `header`; more : members of the problem beside those of the RFC
    """
    said = {"type": "about:blank", "title": HTTPStatus(status).phrase, "status": status,
            "detail": detail or WORDS.get(status) or f"{HTTPStatus(status).phrase}."}
    if listed := list(errors):
        said["errors"] = listed
    return HttpResponse(json.dumps(said | more, ensure_ascii=False), status=status,
                        content_type=MEDIA_TYPE, headers=headers)
