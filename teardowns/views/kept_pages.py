"""Pages of public units, kept as they were sent to somebody not signed in: by the process, and
packed for all processes of the host.

What is a reader's own is no part of what is kept: a page that has messages or a form for its reader
is sent and forgotten, and the nonce of the content policy is put in anew.
"""
from __future__ import annotations

import json
import secrets
import time
import zlib
from collections import OrderedDict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from functools import wraps
from hashlib import sha256
from threading import Lock
from typing import Any, Protocol, Self

from django.contrib.messages import get_messages
from django.http import HttpRequest, HttpResponse
from django.utils.cache import get_conditional_response
from django.utils.translation import get_language

from teardowns.services.page_state import page_state

from .shared_pages import SharedPages

MOST_BYTES = 32_000_000          # of all pages that a process keeps
LONGEST_ADDRESS = 300
# s at most until a change shows that nothing told of: what was hidden for a day and comes back.
# Each page has up to half of it less, lest those made together are made anew together.
KEPT_FOR, LESS = 3600, 1800
LONGEST_WAIT = 2.0               # s for a page that another thread makes
PACKED = 1                       # zlib's effort
NONCE = secrets.token_hex(16).encode()       # stands in kept pages where the reader's nonce goes
WANTED = "CSRF_COOKIE_NEEDS_UPDATE"          # Django's sign that a page asked for a token

Key = tuple[str, ...]


class State(Protocol):
    """What a page was made of; see services.page_state."""

    def holds(self, now: Any) -> bool: ...
    def as_text(self) -> str: ...
    @classmethod
    def of_text(cls, text: str) -> Self: ...


@dataclass(frozen=True, slots=True)
class Kept:
    body: bytes
    headers: dict[str, str]      # that the view gave it
    etag: str
    state: State
    # s, by the machine's clock that only goes forward
    until: float = field(
        default_factory=lambda: time.monotonic() + KEPT_FOR - secrets.randbelow(LESS))

    def packed(self) -> bytes:
        about = {"headers": self.headers, "etag": self.etag, "state": self.state.as_text(),
                 "until": self.until}
        return json.dumps(about).encode() + b"\n" + zlib.compress(self.body, PACKED)

    @classmethod
    def unpacked(cls, packed: bytes, state: type[State]) -> Self:
        about, _, body = packed.partition(b"\n")
        said = json.loads(about)
        return cls(**{**said, "body": zlib.decompress(body), "state": state.of_text(said["state"])})


class Pages:
    """The pages asked for last, as many as there is room for."""

    def __init__(self, most_bytes: int = MOST_BYTES):
        self._pages: OrderedDict[Key, Kept] = OrderedDict()
        self._most, self._bytes, self._lock = most_bytes, 0, Lock()

    def get(self, key: Key) -> Kept | None:
        with self._lock:
            if key in self._pages:
                self._pages.move_to_end(key)
            return self._pages.get(key)

    def put(self, key: Key, page: Kept) -> None:
        with self._lock:
            self._forget(key)
            self._pages[key] = page
            self._bytes += len(page.body)
            while self._bytes > self._most:
                self._forget(next(iter(self._pages)))

    def clear(self) -> None:
        with self._lock:
            self._pages.clear()
            self._bytes = 0

    def _forget(self, key):
        page = self._pages.pop(key, None)
        self._bytes -= len(page.body) if page else 0


class Makers:
    """Of the threads of a process, one makes a page while the others that want it wait.

    When a page that many read has changed, each of them would make it, and all of them slowly.
    """

    LINES = 64                       # pages that fall into one line wait for each other

    def __init__(self) -> None:
        self._lines = [Lock() for _ in range(self.LINES)]

    @contextmanager
    def alone(self, key: Key) -> Iterator[None]:
        """Nobody waits for ever: who waited LONGEST_WAIT makes the page too."""
        line = self._lines[hash(key) % self.LINES]
        is_first = line.acquire(timeout=LONGEST_WAIT)
        try:
            yield
        finally:
            if is_first:
                line.release()


pages = Pages()
shared = SharedPages()
makers = Makers()


def kept_page(state_of: Callable[..., State | None]) -> Callable[..., Any]:
    """For a view whose page says nothing but what everybody reads.

    state_of : of the view's arguments, what its page is made of as it stands now; None where it is
    not to be kept. The view finds it as `request.made_of`.
    """
    def decorate(view):
        @wraps(view)
        def answer(request, *args, **kwargs):
            is_kept = _is_for_everybody(request)
            state = request.made_of = state_of(request, *args, **kwargs) if is_kept else None
            if state is None:
                return view(request, *args, **kwargs)
            page = kept_or_made(key_of(request), state, lambda: _made(
                request, state, lambda: view(request, *args, **kwargs)))
            return page if isinstance(page, HttpResponse) else _sent(request, page)
        return answer
    return decorate


def kept_with_unit(view: Callable[..., Any]) -> Callable[..., Any]:
    """For a view of the unit `pk` whose page says nothing but what its own rows have."""
    return kept_page(lambda request, pk, **more: page_state([pk]))(view)


def _is_for_everybody(request: HttpRequest) -> bool:
    return (request.method in ("GET", "HEAD") and not request.user.is_authenticated
            and len(request.get_full_path()) <= LONGEST_ADDRESS and not len(get_messages(request)))


def key_of(request: HttpRequest) -> Key:
    return (get_language() or "", request.scheme or "", request.get_host(), request.get_full_path())


def keep(key: Key, page: Kept) -> None:
    pages.put(key, page)
    shared.put(_name(key), page.packed())


def kept_or_made(key: Key, state: State,
                 make: Callable[[], Kept | HttpResponse]) -> Kept | HttpResponse:
    """The page of that key as it is now, or the answer that is not to be kept."""
    page = still_right(key, state)
    if page is not None:
        return page
    with makers.alone(key):
        found = still_right(key, state)              # who waited finds what the first has made
        made = make() if found is None else found
        if isinstance(made, Kept) and found is None:
            keep(key, made)
    return made


def still_right(key: Key, state: State) -> Kept | None:
    """What this process keeps, or another made meanwhile."""
    page = pages.get(key)
    right = page and _as_it_stands(page, state)
    if right is None and (packed := shared.get(_name(key))) is not None:
        right = _as_it_stands(Kept.unpacked(packed, type(state)), state)
    if right is not None and right is not page:
        pages.put(key, right)
    return right


def _as_it_stands(page: Kept, state: State) -> Kept | None:
    if time.monotonic() > page.until:
        return None
    if page.state == state:
        return page
    return replace(page, state=state) if page.state.holds(state) else None


def _name(key: Key) -> bytes:
    return sha256(repr(key).encode()).digest()


def _made(request: HttpRequest, state: State,
          view: Callable[[], HttpResponse]) -> Kept | HttpResponse:
    """The page to keep, or the answer where it is none."""
    request.META.pop(WANTED, None)
    own, request.csp_nonce = request.csp_nonce, NONCE.decode()       # type: ignore[attr-defined]
    try:
        answer = view()
    finally:
        request.csp_nonce = own                                      # type: ignore[attr-defined]
    plain = answer.content.replace(NONCE, b"")
    if answer.status_code != 200 or answer.cookies or WANTED in request.META:
        answer.content = _with_nonce(request, answer.content)
        return answer
    return Kept(answer.content, dict(answer.headers), f'"{sha256(plain).hexdigest()[:32]}"', state)


def _with_nonce(request, body):
    return body.replace(NONCE, str(request.csp_nonce).encode()) if NONCE in body else body


def _sent(request: HttpRequest, page: Kept) -> HttpResponse:
    """The page, or that the reader has it already."""
    answer = get_conditional_response(request, etag=page.etag)
    if answer is None or answer.status_code != 304:
        answer = HttpResponse(_with_nonce(request, page.body), headers=page.headers)
    answer["ETag"] = page.etag
    # It may be kept by the reader, and is asked for each time: what is withdrawn is gone at once.
    answer["Cache-Control"] = "no-cache"
    return answer
