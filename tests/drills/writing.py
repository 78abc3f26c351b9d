"""People who write by the API, what each was answered, and the tables held against it."""
from __future__ import annotations

import hashlib
import http.client
import json
import threading
import time
import uuid
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO

AGAIN = {429, 500, 502, 503, 504, 507}


@dataclass(frozen=True)
class Author:
    """Somebody with an open sheet, a token and a session."""

    name: str
    unit: int
    token: str
    session: str = ""


@dataclass
class Ledger:
    """What was answered as kept, and what it took."""

    sheets: dict[int, str] = field(default_factory=dict)                # unit → its title
    photos: dict[tuple[int, str], str] = field(default_factory=dict)    # unit, key → SHA-256
    logs: dict[tuple[int, str], str] = field(default_factory=dict)
    rows: dict[tuple[int, str], float] = field(default_factory=dict)    # unit, key → value
    comments: dict[str, int] = field(default_factory=dict)              # text → unit
    titles: set[str] = field(default_factory=set)                       # sent, answered or not
    sent_again: Counter[str] = field(default_factory=Counter)
    refused: list[str] = field(default_factory=list)
    waits: list[float] = field(default_factory=list)                    # s, first sending → answer
    lock: threading.Lock = field(default_factory=threading.Lock)

    def __len__(self) -> int:
        return sum(map(len, (self.sheets, self.photos, self.logs, self.rows, self.comments)))


def people(count: int, prefix: str = "drill") -> list[Author]:
    from django.test import Client

    from core.accounts.services.api_tokens import issue_token
    from teardowns.models import Unit
    from tests.cast import person

    made = []
    for number in range(count):
        owner = person(f"{prefix}-{number}")
        unit = Unit.objects.create(contributor=owner, title=f"Sheet of {owner.username}")
        _, secret = issue_token(owner=owner, name="drill", scopes=("read", "contribute"), days=1)
        client = Client()
        client.force_login(owner, "allauth.account.auth_backends.AuthenticationBackend")
        made.append(Author(owner.username, unit.pk, secret, client.cookies["session"].value))
    return made


def ask(port: int, method: str, path: str, body: bytes | None = None,
        headers: dict[str, str] | None = None, seconds: float = 40
        ) -> tuple[int, dict[str, str], bytes]:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=seconds)
    try:
        connection.request(method, path, body, headers or {})
        answer = connection.getresponse()
        return answer.status, dict(answer.getheaders()), answer.read()
    finally:
        connection.close()


def headers_of(author: Author, kind: str = "application/json", key: str = "") -> dict[str, str]:
    return {"Authorization": f"Bearer {author.token}", "Content-Type": kind} | (
        {"Idempotency-Key": key} if key else {})


def send(port: int, author: Author, path: str, body: bytes, kind: str, ledger: Ledger,
         until: float) -> tuple[int, bytes]:
    """The answer; the same under the same key goes again for as long as nothing was done."""
    key, begun = str(uuid.uuid4()), time.monotonic()
    while True:
        try:
            status, _, said = ask(port, "POST", path, body, headers_of(author, kind, key))
        except (OSError, http.client.HTTPException) as error:
            why, status, said = type(error).__name__, 0, b""
        else:
            why = str(status)
        if status and status not in AGAIN:
            with ledger.lock:
                ledger.waits.append(time.monotonic() - begun)
            return status, said
        with ledger.lock:
            ledger.sent_again[why] += 1
        if time.monotonic() > until:
            return 0, said
        time.sleep(0.1)


def begin_sheet(port, author, ledger, until) -> int | None:
    """Its number, where it is known to be there."""
    title = f"Drill {uuid.uuid4()}"
    with ledger.lock:
        ledger.titles.add(title)
    body = json.dumps({"title": title, "kind": "plug_in"}).encode()
    status, said = send(port, author, "/api/v1/bench", body, "application/json", ledger, until)
    begun = json.loads(said)["unit"] if status == 201 else None
    with ledger.lock:
        if begun:
            ledger.sheets[begun] = title
        elif status:
            ledger.refused.append(f"{status} {said[:200]!r}")
    return begun


def send_photo(port, author, ledger, until, size=(240, 180)) -> None:
    _send_file(port, author, ledger, until, picture(size), "photos", ledger.photos)


def send_log(port, author, ledger, until, rows=500) -> None:
    _send_file(port, author, ledger, until, log(rows), "recordings?kind=thermal", ledger.logs)


def _send_file(port, author, ledger, until, content, where, kept):
    status, said = send(port, author, f"/api/v1/bench/{author.unit}/{where}", content,
                        "application/octet-stream", ledger, until)
    with ledger.lock:
        if status == 201:
            kept[author.unit, json.loads(said)["key"]] = hashlib.sha256(content).hexdigest()
        elif status:
            ledger.refused.append(f"{status} {said[:200]!r}")


_bases: dict[tuple[int, int], bytes] = {}


def picture(size=(240, 180)) -> bytes:
    """A JPEG of noise, which is large for its pixels, unlike every other by a comment in it."""
    if size not in _bases:
        from PIL import Image

        kept = BytesIO()
        Image.effect_noise(size, 90).convert("RGB").save(kept, "JPEG", quality=97)
        _bases[size] = kept.getvalue()
    words = uuid.uuid4().bytes
    note = b"\xff\xfe" + (len(words) + 2).to_bytes(2, "big") + words
    return _bases[size][:2] + note + _bases[size][2:]


def log(rows=500) -> bytes:
    unlike = uuid.uuid4().int % 10_000 / 100
    lines = "".join(f"{10 * row},{50 + unlike / 10:.3f},{25.0}\n" for row in range(rows))
    return f"Time (s),Case (°C),Air (°C)\n{lines}".encode() + f"{10 * rows},{unlike},25\n".encode()


# What the tables say.

def differences(ledger: Ledger) -> dict[str, list]:
    """By kind of harm, each thing that is not as it was answered."""
    from django.db import connection

    connection.close()
    return {"lost": [*_lost_rows(ledger), *_lost_files(ledger)],
            "doubled": _doubled(ledger), "damaged": [*_damaged()],
            "entries of the log other than one": [*_entries(ledger)],
            "fault of the log": [each for each in _faults_of_log() if each]}


def _lost_rows(ledger):
    from teardowns.models import Comment, Measurement, Unit

    there = dict(Unit.objects.filter(pk__in=ledger.sheets).values_list("pk", "title"))
    yield from (("sheet", pk) for pk, title in ledger.sheets.items() if there.get(pk) != title)
    rows = {(unit, key): value for unit, key, value in Measurement.objects.filter(
        unit__in={unit for unit, _ in ledger.rows}).values_list("unit", "key", "value")}
    yield from (("row", at) for at, value in ledger.rows.items() if rows.get(at) != value)
    texts = set(Comment.objects.values_list("text", flat=True)) if ledger.comments else set()
    yield from (("comment", text) for text in ledger.comments if text not in texts)


def _lost_files(ledger):
    from teardowns.models import Photo, Recording

    for kept, model in ((ledger.photos, Photo), (ledger.logs, Recording)):
        there = {(unit, key): sha for unit, key, sha in model.objects.filter(
            unit__in={unit for unit, _ in kept}).values_list("unit", "key", "sha256")}
        yield from ((model.__name__, at) for at, sha in kept.items() if there.get(at) != sha)


def _doubled(ledger):
    from django.db.models import Count

    from teardowns.models import Photo, Recording, Unit

    titles = Counter(Unit.objects.filter(title__startswith="Drill ").values_list(
        "title", flat=True))
    found = [(title, count) for title, count in titles.items()
             if count > 1 and title in ledger.titles]
    for model in (Photo, Recording):
        found += model.objects.values_list("unit", "sha256").annotate(n=Count("pk")).filter(n__gt=1)
    return found


def _damaged() -> Iterator[tuple]:
    """Each file that a row names, by its content."""
    from django.core.files.storage import storages

    from teardowns.models import Photo, PhotoDerivative, Recording
    from teardowns.services.photo_files import original_name

    for model in (Photo, Recording):
        for pk, sha in model.objects.exclude(byte_size=None).values_list("pk", "sha256"):
            try:
                with storages["originals"].open(original_name(sha)) as file:
                    if hashlib.file_digest(file, "sha256").hexdigest() != sha:
                        yield model.__name__, pk, "other content"
            except OSError:
                yield model.__name__, pk, "no file"
    for pk, path in PhotoDerivative.objects.values_list("photo", "path"):
        if not storages["pictures"].exists(path):
            yield "picture", pk, "no file"
    bare = Photo.objects.filter(derivatives=None, byte_size__gt=0).values_list("pk", flat=True)
    yield from (("photo", pk, "no pictures") for pk in bare)


def _entries(ledger):
    from core.audit.models import Entry
    from teardowns.models import Photo, Unit

    begun = Counter(Entry.objects.filter(action="unit_started").values_list("unit", flat=True))
    titles = Unit.objects.filter(title__in=list(ledger.titles)[:30_000])
    yield from (("sheet", pk, begun[pk]) for pk in titles.values_list("pk", flat=True)
                if begun[pk] != 1)
    seen = Counter((unit, detail.get("photo")) for unit, detail in Entry.objects.filter(
        action="photo_received").values_list("unit", "detail"))
    photos = Photo.objects.filter(byte_size__gt=0, original_name="photo")
    yield from ((unit, key, seen[unit, key]) for unit, key in photos.values_list("unit", "key")
                if seen[unit, key] != 1)


def _faults_of_log():
    from core.audit.check import check_log
    from core.audit.models import Entry

    fault, entries, _ = check_log()
    yield fault
    if entries != Entry.objects.count():
        yield f"{entries} of {Entry.objects.count()} entries in the chain"
