"""A POST under a key is acted on once, however often it is sent (header Idempotency-Key, a UUID).

The keys and answers are those of `core.once`; here they are spoken in JSON. A refusal uses no key
up: what was mended may be sent under it.
"""
import re
from collections.abc import Callable
from hashlib import sha256
from uuid import UUID

from django.db import IntegrityError, transaction
from django.http import HttpRequest, HttpResponse

from core.models import Answer as Kept
from core.once import HEADER, act_once, again, digest_of, is_final, keep
from core.problems import problem

NO_KEY = "An Idempotency-Key is a UUID, such as 9b2f7c1e-0d7a-4f0e-8a63-5d2c5d1f1f10: make a new " \
         "one for each thing you do, and send it again with each new try."
OTHER_WORDS = "Something else was sent under this Idempotency-Key before, and was acted on. Make " \
              "a new key for what you do now."
# In quotes as well, as the IETF draft of the field has it (from memory).
KEY = re.compile(r'("?)[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}\1', re.IGNORECASE)
BEFORE = "Answered-Before"       # ours: the answer was given before, nothing was done now


class BadKey(ValueError):
    """The key is no UUID: a problem, see `teardowns.api.faults`."""


def once(request: HttpRequest, act: Callable[[], HttpResponse]) -> HttpResponse:
    """What `act` answers, or answered before; in the transaction of the change. Raises BadKey."""
    key = key_of(request)
    if key is None:
        return act()
    digest = digest_of(request)
    return act_once(request, key, digest, act, lambda kept: _told_again(request, kept, digest))


def once_by_content(request: HttpRequest, sha256_of_file: str, act: Callable[[], HttpResponse]
                    ) -> HttpResponse:
    """As `once`, for what takes long and comes to the same however often it is done: a file.

    No transaction is held meanwhile; the key is claimed when the file has been taken in.
    """
    key = key_of(request)
    if key is None:
        return act()
    digest = sha256(f"{request.get_full_path()} {sha256_of_file}".encode()).hexdigest()
    kept = Kept.objects.filter(person=request.user, key=key).first()
    if kept is not None:
        return _told_again(request, kept, digest)
    response = act()
    if is_final(response):
        try:
            with transaction.atomic():
                keep(request, Kept(person=request.user, key=key, digest=digest), response)
        except IntegrityError:
            kept = Kept.objects.get(person=request.user, key=key)
            return _told_again(request, kept, digest)
    return response


def key_of(request: HttpRequest) -> UUID | None:
    """Raises BadKey."""
    text = request.headers.get(HEADER)
    if text is None:
        return None
    if not KEY.fullmatch(text):
        raise BadKey(text)
    return UUID(text.strip('"'))


def refusal(words: str) -> HttpResponse:
    return problem(422, words, errors=[{"detail": words, "header": HEADER}])


def _told_again(request, kept, digest):
    if kept.digest != digest:
        return refusal(OTHER_WORDS)
    response = again(request, kept)
    response[BEFORE] = "?1"
    return response
