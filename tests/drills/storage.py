"""Storage that is slow, hangs, keeps by half or gives back something else: nothing wrong is kept.

    python -m tests.drills.storage [--seconds 12] [--postgres]

A real server of the S3 protocol with something in front of it that does all this in turn, while
people send photos and logs, look at pictures and read pages. Nothing that a row names may be other
than what was sent, nobody may be given other bytes, and what has nothing to do with files goes on.
"""
from __future__ import annotations

import argparse
import hashlib
import http.client
import sys
import threading
import time
from collections import Counter
from contextlib import suppress

from tests.drills.load import share
from tests.drills.one_host import Findings, needs_root, site
from tests.drills.stand_in import BUCKET, FAULTS, stand_in
from tests.drills.writing import Ledger, ask, differences, people, send_log, send_photo

SENDERS, LOOKERS, READERS = 4, 4, 4
PAGES = ("/", "/units/", "/method/", "/parts/")
LONGEST = 40.0                  # s that anybody waits for an answer about a file
OUTAGE, WARM = {"503", "507"}, 8


class Crowd:
    """People who send, look and read until it is enough."""

    def __init__(self, made, authors, pictures):
        self.port, self.authors, self.pictures = made.port, authors, pictures
        self.ledger, self.enough = Ledger(), threading.Event()
        self.pages: list[tuple[int, float]] = []                # status, s
        self.looks: list[tuple[int, float, bool]] = []          # status, s, whether it was right
        self.threads = [threading.Thread(target=act, args=[number]) for act, count in (
            (self._send, SENDERS), (self._look, LOOKERS), (self._read, READERS))
            for number in range(count)]
        for thread in self.threads:
            thread.start()

    def _send(self, number):
        turn, author = number, self.authors[number]
        while not self.enough.is_set():
            (send_photo, send_log)[turn % 2](self.port, author, self.ledger, 0)
            turn += 1
            time.sleep(0.1)

    def _look(self, number):
        turn = number
        while not self.enough.is_set():
            session, path, sha256 = self.pictures[turn % len(self.pictures)]
            begun, status, found = time.monotonic(), 0, b""
            with suppress(OSError, http.client.HTTPException):
                status, _, found = ask(self.port, "GET", path, None,
                                       {"Cookie": f"session={session}"}, LONGEST)
            right = status != 200 or hashlib.sha256(found).hexdigest() == sha256
            self.looks.append((status, time.monotonic() - begun, right))
            turn += 1
            time.sleep(0.1)

    def _read(self, number):
        turn = number
        while not self.enough.is_set():
            begun, status = time.monotonic(), 0
            with suppress(OSError, http.client.HTTPException):
                status = ask(self.port, "GET", PAGES[turn % len(PAGES)])[0]
            self.pages.append((status, time.monotonic() - begun))
            turn += 1
            time.sleep(0.1)

    def end(self) -> None:
        self.enough.set()
        for thread in self.threads:
            thread.join()


def pictures_of(port, authors, ledger) -> list[tuple[str, str, str]]:
    """(session, address, SHA-256) of originals and of pictures made from them."""
    from teardowns.models import PhotoDerivative

    by_unit = {author.unit: author for author in authors}
    found = []
    for (unit, key), sha256 in ledger.photos.items():
        found.append((by_unit[unit].session, f"/units/{unit}/photos/{key}/original/", sha256))
        width = PhotoDerivative.objects.filter(photo__unit=unit, photo__key=key).values_list(
            "width", flat=True).first()
        path = f"/units/{unit}/photos/{key}/{width}.webp"
        status, _, body = ask(port, "GET", path, None,
                              {"Cookie": f"session={by_unit[unit].session}"})
        assert status == 200, path
        found.append((by_unit[unit].session, path, hashlib.sha256(body).hexdigest()))
    return found


def wrongly_named(front, client) -> list[str]:
    """What rows name and that is not, in the server itself, as it was last sent there."""
    from teardowns.models import Photo, PhotoDerivative, Recording
    from teardowns.services.photo_files import original_name

    names = {f"originals/{original_name(sha)}" for model in (Photo, Recording)
             for sha in model.objects.values_list("sha256", flat=True)}
    names |= {f"pictures/{path}" for path in PhotoDerivative.objects.values_list("path", flat=True)}
    return [name for name in sorted(names)
            if kept(client, name) != front.sent.get(f"/{BUCKET}/{name}")]


def kept(client, name: str) -> str:
    try:
        body = client.get_object(Bucket=BUCKET, Key=name)["Body"].read()
    except client.exceptions.NoSuchKey:
        return "missing"
    return hashlib.sha256(body).hexdigest()


def struck(made, front, client, fault, people_, seconds, quiet, findings) -> None:
    authors, pictures = people_
    front.fault, front.struck = fault, 0
    crowd = Crowd(made, authors, pictures)
    time.sleep(seconds)
    crowd.end()
    front.fault = ""
    sent, looks = dict(crowd.ledger.sent_again), Counter(status for status, *_ in crowd.looks)
    pages = Counter(status for status, _ in crowd.pages)
    longest = max([*crowd.ledger.waits, *(took for _, took, _ in crowd.looks)], default=0)
    print(f"  {fault or 'all well'}: {len(crowd.ledger)} kept, not kept {sent}, pictures "
          f"{dict(looks)}, pages {dict(pages)}, struck {front.struck} times")
    took = share([each for _, each in crowd.pages], 0.95)
    if not fault:
        quiet.append(took)
    findings.say(f"{fault or 'quiet'}: pages p95, ms; longest for a file, s",
                 f"{1000 * took:.0f}; {longest:.1f}", f"2 ×; {LONGEST:.0f}",
                 took <= 2 * quiet[0] + 0.05 and longest <= LONGEST)
    findings.none(f"{fault or 'quiet'}: pages not read", pages.total() - pages[200])
    findings.none(f"{fault or 'quiet'}: given other bytes", sum(not right for *_, right
                                                                in crowd.looks))
    findings.none(f"{fault or 'quiet'}: answers other than 200, 503, 507",
                  [*(why for why in sent if why not in OUTAGE), *(
                      status for status in looks if status not in (200, 503))])
    findings.none(f"{fault or 'quiet'}: refused", crowd.ledger.refused)
    findings.none(f"{fault or 'quiet'}: wrong objects that a row names",
                  wrongly_named(front, client))
    again = Ledger()
    for author in authors:
        for act in (send_photo, send_log):
            act(made.port, author, again, time.monotonic() + 30)
    findings.say(f"{fault or 'quiet'}: kept at once afterwards", len(again), 2 * len(authors),
                 len(again) == 2 * len(authors) and not again.sent_again)
    for harm, found in {**differences(crowd.ledger), **differences(again)}.items():
        findings.none(f"{fault or 'quiet'}: {harm}", found)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--seconds", type=float, default=12)
    asked.add_argument("--postgres", action="store_true")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    findings = Findings("Storage at fault, on", "PostgreSQL" if given.postgres else "SQLite")
    with stand_in() as (front, client), site(
            given.postgres, S3_BUCKET=BUCKET, AWS_ACCESS_KEY_ID="drill",
            S3_ENDPOINT=f"http://127.0.0.1:{front.server_port}", AWS_DEFAULT_REGION="us-east-1",
            AWS_SECRET_ACCESS_KEY="drill") as made:
        authors, first, quiet = people(SENDERS), Ledger(), []
        made.serve()
        for author in authors:
            send_photo(made.port, author, first, time.monotonic() + 60)
        crowd = authors, pictures_of(made.port, authors, first)
        for page in WARM * PAGES:               # every process has made each page once
            ask(made.port, "GET", page)
        for fault in ("", *FAULTS):
            struck(made, front, client, fault, crowd, given.seconds, quiet, findings)
        made.print_errors_of("web")
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
