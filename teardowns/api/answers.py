"""Answers in JSON with their validators, and 304 where nothing has changed."""
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from hashlib import sha256
from typing import Any

from django.core.serializers.json import DjangoJSONEncoder
from django.http import HttpRequest, HttpResponse
from django.utils.cache import get_conditional_response
from django.utils.http import http_date

from teardowns.views.kept_pages import LONGEST_ADDRESS, Kept, State, kept_or_made, key_of

JSON = "application/json"


@dataclass(frozen=True)
class Answer:
    """What an operation gives back, before it is written."""

    payload: Any
    status: int = 200
    location: str = ""                          # of what was made
    changed: datetime | None = None             # where the day of every change is known
    links: Mapping[str, str] = field(default_factory=dict)      # by relation
    media_type: str = JSON


def written(request: HttpRequest, answer: Answer) -> HttpResponse:
    """The answer, or 304; its ETag is of its bytes, so that whatever changes it changes the tag."""
    content = content_of(answer.payload)
    response = HttpResponse(content, status=answer.status, content_type=answer.media_type)
    if answer.location:
        response["Location"] = answer.location
    if answer.links:
        response["Link"] = ", ".join(f'<{to}>; rel="{name}"' for name, to in answer.links.items())
    response["ETag"] = etag_of(content)
    if request.method != "GET":
        return response
    stamp = None
    if answer.changed is not None:
        stamp = int(answer.changed.timestamp())
        response["Last-Modified"] = http_date(stamp)
    return get_conditional_response(request, response["ETag"], stamp, response)


def kept(request: HttpRequest, state: State | None, make: Callable[[], Answer]) -> HttpResponse:
    """What everybody is answered at an address, made once as long as that state holds."""
    if state is None or len(request.get_full_path()) > LONGEST_ADDRESS:
        return written(request, make())

    def made() -> Kept | HttpResponse:
        answer = written(request, make())
        if answer.status_code != 200:
            return answer
        return Kept(answer.content, dict(answer.headers), answer["ETag"], state)

    page = kept_or_made(key_of(request), state, made)
    if isinstance(page, HttpResponse):
        return page
    response = HttpResponse(page.body, headers=page.headers)
    return get_conditional_response(request, page.etag, None, response)


def content_of(payload: Any) -> bytes:
    return json.dumps(payload, cls=DjangoJSONEncoder, ensure_ascii=False, allow_nan=False).encode()


def etag_of(content: bytes) -> str:
    return f'"{sha256(content).hexdigest()[:32]}"'
