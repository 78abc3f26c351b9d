"""Web processes die while people write: nothing answered is lost, doubled, damaged or orphaned.

    python -m tests.drills.kills [--kills 40] [--postgres] [--writers 8] [--no-seams]

First every seam of a new sheet, a photo and a log, each once (tests.drills.crashing): the process
ends itself there, the same is sent again under the same key. Then kills at random: SIGKILL of all
web processes at once while people write. A thousand kills take an hour or two. --postgres needs
root.
"""
from __future__ import annotations

import argparse
import os
import random
import statistics
import sys
import threading
import time
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from tests.drills.one_host import Findings, needs_root, site
from tests.drills.writing import (
    Ledger,
    begin_sheet,
    differences,
    people,
    send_log,
    send_photo,
)

WRITES = ((begin_sheet, 6), (send_photo, 3), (send_log, 1))
ALIVE = (0.2, 2.0)          # s between being back and the next kill
MOST_RECOVERY = 2.0         # s, median
GIVE_UP = 60.0              # s without any answer
LONG_AGO = 4 * 86400        # s: what a sweep may take away


def every_seam(site, author, findings) -> None:
    seams = Path(site.environment["DRILL_SEAMS"])
    ledger, died = Ledger(), 0
    for act, _ in WRITES:
        (seams / "passed").unlink(missing_ok=True)
        act(site.port, author, ledger, time.monotonic() + GIVE_UP)
        passed = (seams / "passed").read_text().splitlines()
        for number in range(1, len(passed) + 1):
            (seams / "at").write_text(str(number))
            act(site.port, author, ledger, time.monotonic() + GIVE_UP)
            died += not (seams / "at").exists()
            (seams / "at").unlink(missing_ok=True)
        findings.say(f"seams of {act.__name__}", len(passed), "some", bool(passed))
        print("    " + ", ".join(passed))
    findings.say("answered after dying once", f"{len(ledger)}, died {died} times")
    told(site, ledger, findings)


def storm(site, authors, kills, findings) -> None:
    ledger, enough, recoveries = Ledger(), threading.Event(), []
    writers = [threading.Thread(target=write, args=[site.port, author, ledger, enough])
               for author in authors]
    for writer in writers:
        writer.start()
    try:
        for number in range(kills):
            recoveries.append(killed(site))
            if number % 50 == 49:
                print(f"    {number + 1} kills, {len(ledger)} answered", file=sys.stderr,
                      flush=True)
    finally:
        enough.set()
        for writer in writers:
            writer.join()
    median = statistics.median(recoveries)
    findings.say("kills", kills)
    findings.say("answered writes", len(ledger), "some", len(ledger) > 0)
    findings.say("sent again, by reason", dict(ledger.sent_again))
    findings.say("answers again after, s: median, longest",
                 f"{median:.2f}, {max(recoveries):.2f}", f"{MOST_RECOVERY} median",
                 median <= MOST_RECOVERY)
    told(site, ledger, findings)


def killed(site) -> float:
    """After a moment; s until it answers again."""
    time.sleep(random.uniform(*ALIVE))
    site.kill("web")
    begun = time.monotonic()
    site.start_web()
    answers_again(site)
    return time.monotonic() - begun


def answers_again(site) -> None:
    until = time.monotonic() + GIVE_UP
    while time.monotonic() < until:
        with suppress(OSError):
            site.is_up()
            return
        time.sleep(0.02)
    raise SystemExit(f"No answer for {GIVE_UP} s")


def write(port, author, ledger, enough) -> None:
    acts, weights = zip(*WRITES, strict=True)
    while not enough.is_set():
        act, = random.choices(acts, weights)
        begun = act(port, author, ledger, time.monotonic() + GIVE_UP)
        if begun:                       # files go to the newest sheet: one of them takes only some
            author = replace(author, unit=begun)


def told(site, ledger, findings) -> None:
    for harm, found in differences(ledger).items():
        findings.none(harm, found)
    findings.none("refused", ledger.refused)
    left, missing, stay = left_behind(site)
    findings.say("files left behind, which the sweep takes", left)
    findings.none("files that rows name and that are missing", missing)
    findings.none("orphans after the sweep", stay)


def left_behind(site) -> tuple[int, list[str], list[str]]:
    """Files that nothing names: swept as if days had gone by, missing ones, and what stays."""
    from teardowns.services.sweep_files import sweep_files

    data, then = Path(site.environment["UNDERPLATE_DATA_DIR"]), time.time() - LONG_AGO
    places = [data / name for name in ("originals", "pictures", "channels", "incoming")]
    for path in (path for place in places for path in place.rglob("*")):
        os.utime(path, (then, then))
    swept, again = sweep_files(), sweep_files()
    aside = [str(path) for place in places[:3] for path in place.rglob(".*")]
    return swept.removed, [*swept.missing], [*aside, *["file"] * again.removed]


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--kills", type=int, default=40)
    asked.add_argument("--writers", type=int, default=8)
    asked.add_argument("--postgres", action="store_true")
    asked.add_argument("--no-seams", action="store_true")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    findings = Findings("Kills on", "PostgreSQL" if given.postgres else "SQLite")
    with site(given.postgres) as made:
        authors = people(given.writers)
        if not given.no_seams:
            seams = made.folder / "seams"
            seams.mkdir()
            plain = dict(made.environment)
            made.environment |= {"DJANGO_SETTINGS_MODULE": "tests.drills.crashing",
                                 "DRILL_SEAMS": str(seams)}
            made.serve()
            every_seam(made, authors[0], findings)
            made.kill("web")
            made.environment = plain
        if given.kills:
            made.serve()
            storm(made, authors, given.kills, findings)
        made.print_errors_of("web")
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
