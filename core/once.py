"""Forms that are acted on once, however often and however close together they are sent."""
from collections.abc import Callable
from datetime import timedelta
from functools import wraps
from hashlib import sha256
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.contrib.messages.storage.base import Message
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from core.models import Answer

FIELD, HEADER = "once", "Idempotency-Key"
KEPT = timedelta(days=30)
NOT_WORDS = {FIELD, "csrfmiddlewaretoken"}
MOST_READ = 8 << 20         # bytes of a file that tell it from another; its size counts as well
MOST_KEPT = 100_000         # characters of an answer to a program
JSON = "application/json"
FORMS = {"application/x-www-form-urlencoded", "multipart/form-data"}


class UnreadableKey(ValueError):
    """The key is no UUID."""


def once(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
    """Decorate a view: the same POST under the same key is acted on once and answered alike.

    The key is claimed in the transaction of the change, so both are kept or neither; a second
    request waits for the first. An answer that asks for corrections uses no key up: only a redirect
    does, or an answer to a program. The view runs within one transaction: keep it short.
    """
    @wraps(view)
    def answered(request, *args, **kwargs):
        if request.method != "POST":
            return view(request, *args, **kwargs)
        try:
            key = _key_of(request)
        except UnreadableKey:
            return _refused(request, "core/once_unreadable.html")
        if key is None:
            return view(request, *args, **kwargs)
        digest = digest_of(request)
        return act_once(request, key, digest, lambda: view(request, *args, **kwargs),
                        lambda kept: _told_again(request, kept, digest))
    return answered


def sweep_answers() -> int:
    """Forget answers after a month: how many."""
    return Answer.objects.filter(at__lt=timezone.now() - KEPT).delete()[0]


@transaction.atomic
def act_once(request: HttpRequest, key: UUID, digest: str, act: Callable[[], HttpResponse],
             tell_again: Callable[[Answer], HttpResponse]) -> HttpResponse:
    """What `act` answers, or what is told of the answer that is kept under this key."""
    person = request.user if request.user.is_authenticated else None
    answer, is_new = Answer.objects.get_or_create(
        person=person, key=key, defaults={"digest": digest})
    if not is_new:
        return tell_again(answer)
    response = act()
    if is_final(response):
        keep(request, answer, response)
    else:
        answer.delete()
    return response


def _told_again(request, answer, digest):
    if answer.digest != digest:
        return _refused(request, "core/once_other_words.html", _typed(request))
    return again(request, answer)


def _key_of(request):
    text = request.POST.get(FIELD) or request.headers.get(HEADER)
    if not text:
        return None
    try:
        return UUID(text)
    except ValueError as error:
        raise UnreadableKey from error


def digest_of(request: HttpRequest) -> str:
    """SHA-256 of where something was sent and of all that was sent, but for the keys themselves."""
    digest = sha256(repr((request.method, request.get_full_path())).encode())
    if request.content_type in FORMS:
        fields = sorted((name, values) for name, values in request.POST.lists()
                        if name not in NOT_WORDS)
        digest.update(repr(fields).encode("utf-8", "surrogatepass"))
        for name, files in sorted(request.FILES.lists()):
            for file in files:
                _add_file(digest, name, file)
    else:
        digest.update(request.body)
    return digest.hexdigest()


def _add_file(digest, name, file):
    digest.update(repr((name, file.name, file.size)).encode("utf-8", "surrogatepass"))
    file.seek(0)
    digest.update(file.read(MOST_READ))
    file.seek(0)


def is_final(response: HttpResponse) -> bool:
    """Whether the answer uses the key up."""
    if response.status_code in (302, 303):
        return True
    return (200 <= response.status_code < 300 and not response.streaming
            and response.get("Content-Type", JSON) == JSON and len(response.content) <= MOST_KEPT)


def keep(request: HttpRequest, answer: Answer, response: HttpResponse) -> None:
    answer.status, answer.location = response.status_code, response.get("Location", "")
    answer.content = response.content.decode()
    answer.messages = [[message.level, str(message.message), message.extra_tags or ""]
                       for message in _new_messages(request)]
    answer.save()


def _new_messages(request) -> list[Message]:
    # Iterating over the storage would count them as shown.
    return getattr(messages.get_messages(request), "_queued_messages", [])


def again(request: HttpRequest, answer: Answer) -> HttpResponse:
    for level, text, tags in answer.messages:
        messages.add_message(request, level, text, tags, fail_silently=True)
    response = HttpResponse(answer.content, status=answer.status, content_type=JSON)
    if answer.location:
        response.headers["Location"] = answer.location
    return response


def _typed(request) -> list[tuple[str, str]]:
    """What was sent this time, to be sent as something new; files and secrets cannot be."""
    if request.FILES or any("password" in name for name in request.POST):
        return []
    return [(name, value) for name, values in request.POST.lists() if name not in NOT_WORDS
            for value in values]


def _refused(request, template, typed: Any = ()):
    return render(request, template, {"typed": typed}, status=422)
