"""A disk that is full, and pictures that cannot be written: what is there is read, nothing is 500.

    sudo python -m tests.drills.full_disk [--megabytes 24]

The data folder lies on a small file system in memory, which is filled up by a file beside it; then
there is room again, and all has to go on by itself. Then originals and pictures are mounted
read-only: only what writes them may be refused.
"""
from __future__ import annotations

import argparse
import sqlite3
import subprocess
import sys
import time
from collections import Counter
from contextlib import closing, suppress
from pathlib import Path

from tests.drills.one_host import Findings, needs_root, site
from tests.drills.two_hosts_servers import wait_for
from tests.drills.writing import (
    AGAIN,
    Ledger,
    ask,
    begin_sheet,
    differences,
    people,
    send_log,
    send_photo,
)

PAGES = ("/", "/units/", "/method/", "/health/alive")
ROUNDS, BACK = 12, 5.0                  # …, s until it takes everything again


def mount(place: Path, *arguments: str) -> None:
    subprocess.run(["mount", *arguments, str(place)], check=True)


def tried(made, author, ledger, act) -> None:
    act(made.port, author, ledger, 0)


def pages(made) -> Counter[int]:
    return Counter(ask(made.port, "GET", path)[0] for path in PAGES)


def filled(made, data: Path, author, findings) -> None:
    ledger, read = Ledger(), Counter()
    for act in (begin_sheet, send_photo, send_log):
        tried(made, author, ledger, act)
    findings.say("kept while there is room", len(ledger), 3, len(ledger) == 3)
    fill(data / "filler")
    for _ in range(ROUNDS):
        for act in (begin_sheet, send_photo, send_log):
            tried(made, author, ledger, act)
        read += pages(made)
    findings.say("full: pages read, by status", dict(read), "200", set(read) == {200})
    findings.say("full: writes, by status", dict(ledger.sent_again), "503, 507",
                 set(ledger.sent_again) <= {"503", "507"} and bool(ledger.sent_again))
    (data / "filler").unlink()
    begun, whole = time.monotonic(), Ledger()
    wait_for(lambda: all_kept(made, author, whole))
    took = time.monotonic() - begun
    findings.say("room again: s until all is taken", f"{took:.1f}", BACK, took <= BACK)
    for each in (ledger, whole):
        for harm, found in differences(each).items():
            findings.none(f"full disk: {harm}", found)
    with closing(sqlite3.connect(data / "underplate.sqlite3")) as file:
        said = file.execute("PRAGMA integrity_check").fetchone()[0]
    findings.say("integrity of the database", said, "ok", said == "ok")


def fill(path: Path) -> None:
    """To the last byte, in pieces that get smaller."""
    with path.open("wb", buffering=0) as file:
        for piece in (1 << 20, 1 << 12, 1):
            with suppress(OSError):
                while file.write(b"\0" * piece) == piece:
                    pass


def all_kept(made, author, ledger) -> bool:
    before = len(ledger)
    for act in (begin_sheet, send_photo, send_log):
        tried(made, author, ledger, act)
    return len(ledger) - before == 3


def read_only(made, data: Path, author, findings) -> None:
    places = [data / "originals", data / "pictures"]
    for place in places:
        place.mkdir(exist_ok=True)
        mount(place, "--bind", str(place))
        mount(place, "-o", "remount,ro,bind")
    try:
        ledger = Ledger()
        for _ in range(ROUNDS):
            tried(made, author, ledger, begin_sheet)
        findings.say("read-only pictures: sheets kept", len(ledger.sheets), ROUNDS,
                     len(ledger.sheets) == ROUNDS)
        for act in (send_photo, send_log):
            tried(made, author, ledger, act)
        findings.say("read-only pictures: files, by status", dict(ledger.sent_again), "503, 507",
                     set(ledger.sent_again) <= {str(each) for each in AGAIN - {500}}
                     and sum(ledger.sent_again.values()) == 2)
        read = pages(made)
        findings.say("read-only pictures: pages read", dict(read), "200", set(read) == {200})
    finally:
        for place in places:
            subprocess.run(["umount", str(place)], check=True)
    again = Ledger()
    findings.say("writable again: files kept", all_kept(made, author, again), True,
                 len(again) == 3)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--megabytes", type=int, default=24)
    given = asked.parse_args()
    needs_root()
    findings = Findings("A full disk,", given.megabytes, "MB")
    with site() as made:
        author, = people(1)
        from django.db import connections

        connections.close_all()
        data = Path(made.environment["UNDERPLATE_DATA_DIR"])
        made.manage("shell", "--no-imports", "-c", CHECKPOINT)
        aside = data.rename(data.parent / "laid-out")
        data.mkdir(mode=0o700)
        mount(data, "-t", "tmpfs", "-o", f"size={given.megabytes}m,mode=700", "tmpfs")
        try:
            subprocess.run(["cp", "-a", f"{aside}/underplate.sqlite3", str(data)], check=True)
            made.environment["STATIC_ROOT"] = str(aside / "static")
            made.serve()
            filled(made, data, author, findings)
            read_only(made, data, author, findings)
        finally:
            made.end()
            connections.close_all()
            subprocess.run(["umount", "-l", str(data)], check=True)
        made.print_errors_of("web")
    return findings.exit()


CHECKPOINT = ("from django.db import connection\n"
              "connection.cursor().execute('PRAGMA wal_checkpoint(TRUNCATE)')")

if __name__ == "__main__":
    sys.exit(main())
