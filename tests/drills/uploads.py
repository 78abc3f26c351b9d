"""Uploads that break off at every border and anywhere: each goes on, whole, and nobody else's.

    python -m tests.drills.uploads [--cuts 200] [--postgres]

Photos and logs in blocks of 1 MiB, as the script sends them. The line is cut at every 64 kB and at
so many random bytes; what has come is asked for and gone on from. Then what must be refused: a
wrong offset, another person's session, a file that changed meanwhile, an upload left too long.
"""
from __future__ import annotations

import argparse
import hashlib
import json
import random
import socket
import sys
import time
from contextlib import suppress
from dataclasses import dataclass

from tests.drills.one_host import HERE, Findings, needs_root, site
from tests.drills.writing import Author, ask, log, people, picture

BLOCK, BORDER, CUTS_A_FILE, TRIES = 1 << 20, 1 << 16, 20, 8
TOKEN = "a" * 32                # cookie and header alike: what a page would have given


@dataclass
class Sender:
    """One file on its way, and the bytes that went twice."""

    port: int
    author: Author
    kind: str                   # "photos" or "recordings"
    content: bytes
    upload: str = ""
    offset: int = 0
    most_again: int = 0

    @property
    def start(self) -> str:
        return f"/bench/{self.author.unit}/{self.kind}/uploads/"

    def headers(self, **more: str) -> dict[str, str]:
        return {"Cookie": f"session={self.author.session}; csrf={TOKEN}", "X-CSRFToken": TOKEN} \
            | more

    def begin(self, **said: object) -> int:
        about = {"name": "bench.csv" if self.kind == "recordings" else "board.jpg",
                 "size": len(self.content), "kind": "thermal",
                 "sha256": hashlib.sha256(self.content).hexdigest()} | said
        status, _, answer = ask(self.port, "POST", self.start, json.dumps(about).encode(),
                                self.headers(**{"Content-Type": "application/json"}))
        self.upload = json.loads(answer).get("upload", "") if status == 201 else ""
        self.offset = 0
        return status

    def put(self, block: bytes, offset: int) -> tuple[int, dict[str, str], bytes]:
        return ask(self.port, "PUT", f"{self.start}{self.upload}/", block, self.headers(**{
            "Content-Type": "application/octet-stream", "Upload-Offset": str(offset)}))

    def state(self) -> tuple[int, dict]:
        status, _, answer = ask(self.port, "GET", f"{self.start}{self.upload}/", None,
                                self.headers())
        with suppress(ValueError):
            return status, json.loads(answer)
        return status, {}

    def cut_at(self, byte: int) -> None:
        """Blocks up to the one with this byte, of which no more than that is sent."""
        while self.offset + BLOCK <= byte:
            self.send()
        block = self.content[self.offset:self.offset + BLOCK]
        head = "".join(f"{name}: {value}\r\n" for name, value in self.headers(**{
            "Host": HERE, "Upload-Offset": str(self.offset), "Content-Length": str(len(block)),
            "Content-Type": "application/octet-stream"}).items())
        with socket.create_connection((HERE, self.port)) as line:
            line.sendall(f"PUT {self.start}{self.upload}/ HTTP/1.1\r\n{head}\r\n".encode())
            line.sendall(block[:byte - self.offset])
        status, said = self.state()
        assert status == 200, (status, said)
        self.most_again = max(self.most_again, byte - said.get("offset", byte))
        self.offset = said.get("offset", self.offset)

    def send(self) -> dict:
        """The next block; what the file became after the last one. It comes again when told to."""
        for _ in range(TRIES):
            status, headers, answer = self.put(self.content[self.offset:self.offset + BLOCK],
                                               self.offset)
            if status not in (503, 507):
                break
            time.sleep(1)
        if status == 201:
            return json.loads(answer)
        if status not in (204, 409):
            raise SystemExit(f"{status} {answer[:300]!r}")
        self.offset = int(headers["Upload-Offset"])
        return {}

    def finish(self) -> str:
        while True:
            if kept := self.send().get("kept", ""):
                return kept


def is_kept(sender: Sender) -> bool:
    """Whether the site has the very file, by its digest."""
    from django.core.files.storage import storages

    from teardowns.models import Photo, Recording
    from teardowns.services.photo_files import original_name

    sha256 = hashlib.sha256(sender.content).hexdigest()
    model = Photo if sender.kind == "photos" else Recording
    if not model.objects.filter(unit=sender.author.unit, sha256=sha256).exists():
        return False
    with storages["originals"].open(original_name(sha256)) as file:
        return hashlib.file_digest(file, "sha256").hexdigest() == sha256


def contents(kind: str) -> bytes:
    return picture((1800, 1350)) if kind == "photos" else log(150_000)


def cut(port, author, kind, places_of, findings, what) -> None:
    senders = []
    for places in places_of:
        sender = Sender(port, author, kind, contents(kind))
        sender.begin()
        for place in places(len(sender.content)):
            sender.cut_at(place)
        sender.finish()
        senders.append((sender, len(places(len(sender.content)))))
    whole = sum(is_kept(sender) for sender, _ in senders)
    findings.say(f"{kind}, {what}: cut; files whole, of",
                 f"{sum(cuts for _, cuts in senders)}; {whole} of {len(senders)}", "all",
                 whole == len(senders))
    again = max(sender.most_again for sender, _ in senders)
    findings.say(f"{kind}, {what}: most bytes sent again", again, f"{BLOCK} at most",
                 again <= BLOCK)


def refused(port, authors, kind, findings) -> None:
    author, other = authors
    sender = Sender(port, author, kind, contents(kind))
    sender.begin()
    sender.send()
    at = sender.offset
    wrong = [sender.put(sender.content[offset:offset + 1000], offset)
             for offset in (0, at - 1, at + 1, len(sender.content), 10 ** 12)]
    wrong.append(sender.put(b"x" * (len(sender.content) - at + 1), at))      # beyond its end
    findings.none(f"{kind}: wrong offsets that were not told the right one",
                  [(status, headers.get("Upload-Offset")) for status, headers, _ in wrong
                   if (status, headers.get("Upload-Offset")) != (409, str(at))])
    strangers = [Sender(port, Author(other.name, unit, other.token, other.session), kind,
                        sender.content, sender.upload) for unit in (author.unit, other.unit)]
    answers = [status for each in strangers
               for status in (each.put(sender.content[at:at + 1000], at)[0], each.state()[0])]
    findings.none(f"{kind}: somebody else who was not answered 404",
                  [status for status in answers if status != 404])
    sender.finish()
    findings.say(f"{kind}: the file whole after all this", is_kept(sender), True, is_kept(sender))
    changed(port, author, kind, findings)
    expired(port, author, kind, findings)


def changed(port, author, kind, findings) -> None:
    """One digit, or one byte, is another one by the time the second block goes."""
    sender = Sender(port, author, kind, contents(kind))
    sender.begin()
    sender.send()
    at = sender.content.index(b"5", BLOCK)
    sender.content = sender.content[:at] + b"6" + sender.content[at + 1:]
    status, answer = 204, b""
    while status == 204:
        status, headers, answer = sender.put(sender.content[sender.offset:sender.offset + BLOCK],
                                             sender.offset)
        sender.offset = int(headers.get("Upload-Offset", 0))
    findings.say(f"{kind}: a changed file", f"{status} {answer[:90].decode(errors='replace')}",
                 "422", status == 422 and not is_kept(sender))


def expired(port, author, kind, findings) -> None:
    from django.utils import timezone

    from teardowns.models import PhotoUpload, RecordingUpload
    from teardowns.services.receive_upload import KEPT

    sender = Sender(port, author, kind, contents(kind))
    sender.begin()
    sender.send()
    (PhotoUpload if kind == "photos" else RecordingUpload).objects.filter(
        pk=sender.upload).update(changed_at=timezone.now() - KEPT)
    statuses = sender.state()[0], sender.put(sender.content[BLOCK:2 * BLOCK], BLOCK)[0]
    sender.begin()
    sender.finish()
    findings.say(f"{kind}: left too long: asked, gone on with; then begun anew and whole",
                 f"{statuses}; {is_kept(sender)}", "404, 404; True",
                 statuses == (404, 404) and is_kept(sender))


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--cuts", type=int, default=200)
    asked.add_argument("--postgres", action="store_true")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    findings = Findings("Uploads that break off, on", "PostgreSQL" if given.postgres else "SQLite")
    draw, begun = random.Random(16), time.monotonic()
    with site(given.postgres) as made:
        authors = people(2)
        made.serve()
        for kind in ("photos", "recordings"):
            cut(made.port, authors[0], kind, [lambda size: range(BORDER, size, BORDER)], findings,
                "every 64 kB")
            drawn = [sorted(draw.random() for _ in range(CUTS_A_FILE))
                     for _ in range(max(1, given.cuts // CUTS_A_FILE // 2))]
            cut(made.port, authors[0], kind, [
                lambda size, shares=shares: [int(each * (size - 1)) for each in shares]
                for shares in drawn], findings, "random bytes")
            refused(made.port, authors, kind, findings)
        print(f"    in {time.monotonic() - begun:.0f} s")
        made.print_errors_of("web")
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
