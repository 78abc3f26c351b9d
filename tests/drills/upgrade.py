"""A full database of each former release is brought to this one, killed half-way, read meanwhile.

    python -m tests.drills.upgrade [--units 3000] [--postgres] [--only COMMIT]

The former code itself fills the database and goes on serving it; then `migrate` of this code is
killed after its first step, begun again, and run once more. Rows are counted and compared by a
digest of all columns that there were. Somebody writes all the while: how long was the longest wait?
Needs the history of the code; --postgres needs root.
"""
from __future__ import annotations

import argparse
import http.client
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from contextlib import suppress
from pathlib import Path

from tests.drills.one_host import Findings, Postgres, needs_root
from tests.drills.releases import (
    RELEASES,
    applied,
    connected,
    contents_of,
    old_site,
    public_unit,
    tables_of,
)
from tests.drills.two_hosts_servers import PYTHON, ROOT, wait_for
from tests.drills.writing import ask

LONGEST_BLOCK = 4.0             # s for which a writer or a reader waits
WRITTEN = {"teardowns_unit": "id", "accounts_user": "id", "teardowns_listedunit": "unit_id",
           "teardowns_publication": "id"}                   # table → its key


class Beside:
    """Who reads by the former code, and who writes one row of each table in turn, meanwhile."""

    def __init__(self, made, pages, tables):
        self.made, self.pages, self.tables = made, pages, [t for t in WRITTEN if t in tables]
        self.enough, self.waits, self.read = threading.Event(), [0.0], []
        self.not_written: list[str] = []
        self.threads = [threading.Thread(target=self._read), threading.Thread(target=self._write)]
        for thread in self.threads:
            thread.start()

    def _read(self):
        turn = 0
        while not self.enough.is_set():
            page, begun, status = self.pages[turn % len(self.pages)], time.monotonic(), 0
            with suppress(OSError, http.client.HTTPException):
                status = ask(self.made.port, "GET", page)[0]
            self.read.append((page, status, time.monotonic() - begun))
            turn += 1
            time.sleep(0.02)

    def _write(self):
        with connected(self.made) as connection:
            while not self.enough.is_set():
                for table in self.tables:
                    begun = time.monotonic()
                    try:
                        key = WRITTEN[table]
                        connection.execute(f"UPDATE {table} SET {key} = {key} WHERE {key} = "
                                           f"(SELECT min({key}) FROM {table})")
                    except Exception as error:
                        self.not_written.append(f"{table}: {error}")
                    self.waits.append(time.monotonic() - begun)
                time.sleep(0.01)

    def end(self):
        self.enough.set()
        for thread in self.threads:
            thread.join()


def migrate(made, *more: str) -> subprocess.Popen[str]:
    """By this release's code."""
    return subprocess.Popen([PYTHON, "manage.py", "migrate", "--no-input", *more], cwd=ROOT,
                            env=os.environ | made.environment, stdout=subprocess.PIPE,
                            stderr=subprocess.STDOUT, text=True, start_new_session=True)


def killed(made) -> int:
    """`migrate` dies as soon as one more step stands in its table: how many steps stand there."""
    before, process = applied(made), migrate(made)
    while process.poll() is None and applied(made) == before:
        time.sleep(0.005)
    with suppress(ProcessLookupError):
        os.killpg(process.pid, signal.SIGKILL)
    process.communicate()
    return applied(made) - before


def held_up(made, findings, what) -> None:
    """Somebody reads a table for long: `migrate` gives up in time, and nobody waits behind it."""
    with connected(made) as reader:
        reader.execute("BEGIN")
        for table in ("teardowns_printout", "teardowns_photoupload", "accounts_user"):
            with suppress(Exception):
                reader.execute(f"SELECT 1 FROM {table} LIMIT 1")
                break
        begun = time.monotonic()
        said, _ = migrate(made).communicate(timeout=120)
        took = time.monotonic() - begun
        findings.say(f"{what}: held up by a reader: gives up after, s", f"{took:.1f}",
                     "lock timeout" if "Applying" in said else "nothing to lock",
                     "lock timeout" in said or "FAILED" not in said)
        reader.execute("ROLLBACK")


def brought_up(commit, what, units, server, findings) -> None:
    with old_site(commit, units, server) as made:
        tables = tables_of(made)
        before = contents_of(made, tables)
        made.start_web()
        wait_for(lambda: ask(made.port, "GET", "/")[0] == 200, 180)
        unit = public_unit(made)
        pages = ["/", "/units/", "/method/", *([f"/units/{unit}/"] if unit else [])]
        quiet = Counter(ask(made.port, "GET", page)[0] for page in pages)
        beside, begun = Beside(made, pages, tables), time.monotonic()
        steps = killed(made)
        if server:
            held_up(made, findings, what)
        said, _ = (process := migrate(made)).communicate(timeout=3600)
        took = time.monotonic() - begun
        beside.end()
        findings.say(f"{what}: rows; steps when killed; s in all, imports among them",
                     f"{sum(count for count, _ in before.values())}; {steps}; {took:.1f}", "",
                     process.returncode == 0)
        if process.returncode:
            print(said[-1500:])
        compared(made, tables, before, what, findings)
        again, _ = migrate(made).communicate(timeout=600)
        findings.say(f"{what}: once more is nothing", "No migrations to apply" in again, True,
                     "No migrations to apply" in again)
        longest = max(beside.waits)
        findings.say(f"{what}: longest wait of a writer, s", f"{longest:.1f}", LONGEST_BLOCK,
                     longest <= LONGEST_BLOCK)
        findings.none(f"{what}: not written", beside.not_written)
        statuses = Counter(status for _, status, _ in beside.read)
        slowest = max(took for *_, took in beside.read)
        findings.say(f"{what}: read by the former code meanwhile; longest, s",
                     f"{dict(statuses)}; {slowest:.1f}", f"as before ({dict(quiet)})",
                     set(statuses) <= set(quiet))
        print("   ", Counter((page, status) for page, status, _ in beside.read if status != 200))
        made.kill("web")


def compared(made, tables, before, what, findings) -> None:
    """What is there of the columns that there were; columns that went are said."""
    now = tables_of(made)
    kept = {table: [column for column in columns if column in now.get(table, ())]
            for table, columns in tables.items() if table in now}
    gone = [f"{table}.{column}" for table, columns in tables.items() for column in columns
            if column not in now.get(table, ())]
    if gone:
        print(f"    {what}: went with a step: {', '.join(gone)}")
    after = contents_of(made, kept)
    same = {table for table in kept if kept[table] == tables[table]}
    findings.none(f"{what}: tables with other rows", [
        f"{table}: {before[table]} → {after[table]}" for table in sorted(kept)
        if after[table][0] != before[table][0]
        or table in same and after[table] != before[table]])


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--units", type=int, default=3000)
    asked.add_argument("--postgres", action="store_true")
    asked.add_argument("--only", default="")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    findings = Findings(f"Up to this release with {given.units} units, on",
                        "PostgreSQL" if given.postgres else "SQLite")
    folder = Path(tempfile.mkdtemp(prefix="drill-"))
    folder.chmod(0o755)
    server = Postgres(folder) if given.postgres else None
    try:
        for commit, what in RELEASES.items():
            if given.only in ("", commit):
                brought_up(commit, what, given.units, server, findings)
    finally:
        if server:
            server.stop("immediate")
        shutil.rmtree(folder, ignore_errors=True)
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
