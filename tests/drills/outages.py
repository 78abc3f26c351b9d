"""The database goes: backends ended, the server crashed, the one writer blocked. Nobody gets 500.

    python -m tests.drills.outages [--seconds 30] [--sqlite]

On a PostgreSQL of its own (needs root): every backend is ended every 2 s, then the server stops as
in a crash and comes back after 5 s. --sqlite: somebody holds the write lock for 1, 10 and 30 s.
"""
from __future__ import annotations

import argparse
import http.client
import sqlite3
import sys
import threading
import time
from collections import Counter
from contextlib import suppress
from pathlib import Path

from tests.drills.load import share
from tests.drills.one_host import Findings, needs_root, site
from tests.drills.writing import Ledger, ask, begin_sheet, differences, people

READERS, WRITERS, DOWN = 4, 4, 5.0              # …, …, s that the server is away
EVERY, BACK = 2.0, 10.0                         # s between endings; s until all is well again
HELD = (1, 10, 30)                              # s for which the lock is held
PAGES = ("/", "/units/", "/method/", "/parts/")


class Crowd:
    """People who read and write until it is enough."""

    def __init__(self, made, authors):
        self.port, self.ledger, self.enough = made.port, Ledger(), threading.Event()
        self.read: list[tuple[float, int, float]] = []      # when, status, s
        self.threads = [threading.Thread(target=self._read) for _ in range(READERS)] + [
            threading.Thread(target=self._write, args=[author]) for author in authors]
        for thread in self.threads:
            thread.start()

    def _read(self):
        turn = 0
        while not self.enough.is_set():
            begun, status = time.monotonic(), 0
            with suppress(OSError, http.client.HTTPException):
                status = ask(self.port, "GET", PAGES[turn % len(PAGES)])[0]
            self.read.append((begun, status, time.monotonic() - begun))
            turn += 1
            time.sleep(0.05)

    def _write(self, author):
        while not self.enough.is_set():
            begin_sheet(self.port, author, self.ledger, time.monotonic() + 90)
            time.sleep(0.1)

    def end(self) -> None:
        self.enough.set()
        for thread in self.threads:
            thread.join()


def told(what, crowd, findings) -> None:
    read = Counter(status for _, status, _ in crowd.read)
    again = dict(crowd.ledger.sent_again)
    findings.say(f"{what}: pages read, by status", dict(sorted(read.items())))
    findings.say(f"{what}: writes kept; sent again, by reason", f"{len(crowd.ledger)}; {again}",
                 "some", len(crowd.ledger) > 0)
    findings.none(f"{what}: answers of 500", read[500] + again.get("500", 0))
    findings.none(f"{what}: refused", crowd.ledger.refused)
    for harm, found in differences(crowd.ledger).items():
        findings.none(f"{what}: {harm}", found)


def ended(made, authors, seconds, findings) -> None:
    import psycopg

    crowd, until, count = Crowd(made, authors), time.monotonic() + seconds, 0
    while time.monotonic() < until:
        time.sleep(EVERY)
        with psycopg.connect(made.postgres.url, autocommit=True) as server:
            count += len(server.execute(
                "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE pid <> "
                "pg_backend_pid() AND backend_type = 'client backend'").fetchall())
    crowd.end()
    findings.say("backends ended", count, "some", count > 0)
    told("backends ended", crowd, findings)


def crashed(made, authors, findings) -> None:
    crowd = Crowd(made, authors)
    time.sleep(5)
    made.postgres.stop("immediate")
    time.sleep(4)                               # what is known of readiness holds for 3 s
    ready, _, _ = ask(made.port, "GET", "/health/ready")
    alive, _, _ = ask(made.port, "GET", "/health/alive")
    page, said, _ = ask(made.port, "GET", "/units/")
    time.sleep(max(0.0, DOWN - 4))
    begun = time.monotonic()
    made.postgres.start()
    back = time.monotonic()
    time.sleep(BACK + 2)
    crowd.end()
    findings.say("meanwhile: alive, ready, a page", f"{alive}, {ready}, {page}", "200, 503, 503",
                 (alive, ready, page) == (200, 503, 503) and "Retry-After" in said)
    findings.say("s in which the server itself came back", f"{back - begun:.1f}")
    late = [at - back for at, status, _ in crowd.read if at > back and status != 200]
    findings.say("s from then until every page is read again", f"{max(late, default=0):.1f}", BACK,
                 max(late, default=0) <= BACK)
    told("crash", crowd, findings)


def blocked(made, authors, findings) -> None:
    path = Path(made.environment["UNDERPLATE_DATA_DIR"]) / "underplate.sqlite3"
    for seconds in HELD:
        crowd = Crowd(made, authors)
        time.sleep(5)
        holder, begun = sqlite3.connect(path, timeout=30, isolation_level=None), time.monotonic()
        holder.execute("BEGIN IMMEDIATE")
        time.sleep(seconds)
        holder.execute("ROLLBACK")
        ended_at = time.monotonic()
        holder.close()
        time.sleep(3)
        crowd.end()
        quiet, meanwhile = ([took for at, status, took in crowd.read if status == 200
                             and is_then(at)] for is_then in (
            lambda at, begun=begun: at < begun,
            lambda at, begun=begun, ended_at=ended_at: begun <= at < ended_at))
        what = f"lock held for {seconds} s"
        before, then = share(quiet, 0.95), share(meanwhile or [seconds], 0.95)
        findings.say(f"{what}: reads p95 before, meanwhile, ms",
                     f"{1000 * before:.0f}, {1000 * then:.0f}", "2 ×", then <= 2 * before + 0.05)
        findings.none(f"{what}: pages not read", [each for each in crowd.read if each[1] != 200])
        told(what, crowd, findings)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--seconds", type=float, default=30)
    asked.add_argument("--sqlite", action="store_true")
    given = asked.parse_args()
    if not given.sqlite:
        needs_root()
    findings = Findings("Outages of", "SQLite's writer" if given.sqlite else "PostgreSQL")
    with site(not given.sqlite) as made:
        authors = people(WRITERS)
        made.serve()
        if given.sqlite:
            blocked(made, authors, findings)
        else:
            ended(made, authors, given.seconds, findings)
            crashed(made, authors, findings)
        made.print_errors_of("web")
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
