"""Acknowledged writes beside the calls that force them to the disk, counted at the kernel.

    python -m tests.drills.syncs [--writes 50]

A kill cannot show what a power cut would take, for the kernel keeps what was written; counting can:
at least one fsync or fdatasync for each commit on SQLite, three more for a file. Needs strace.
"""
from __future__ import annotations

import argparse
import re
import shutil
import subprocess
import sys
import time

from tests.drills.one_host import Findings, site
from tests.drills.writing import Ledger, begin_sheet, people, send_photo

# A commit each; a photo has two files besides, original and picture, and each is synced with its
# folder. What is counted of limits and keys is a commit more.
PER_SHEET, PER_PHOTO = 1, 5


def synced(made, act, author, count) -> tuple[int, int]:
    """(writes answered, syncs) of all web processes."""
    ledger, path = Ledger(), made.folder / "calls"
    group = str(made.started["web"].pid)
    pids = subprocess.run(["pgrep", "-g", group], capture_output=True, text=True,
                          check=True).stdout.split()
    watch = subprocess.Popen(["strace", "-f", "-q", "-e", "trace=fsync,fdatasync", "-o", str(path),
                              *(part for pid in pids for part in ("-p", pid))],
                             stderr=subprocess.DEVNULL)
    time.sleep(2)
    for _ in range(count):
        act(made.port, author, ledger, time.monotonic() + 60)
    time.sleep(1)
    watch.terminate()
    watch.wait()
    return len(ledger), len(re.findall(r"\b(?:fsync|fdatasync)\(", path.read_text()))


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--writes", type=int, default=50)
    given = asked.parse_args()
    if not shutil.which("strace"):
        print("This drill needs strace: apt-get install strace")
        return 2
    findings = Findings("Syncs per answered write, on SQLite")
    with site() as made:
        author, = people(1)
        made.serve()
        begin_sheet(made.port, author, Ledger(), time.monotonic() + 60)
        for act, least in ((begin_sheet, PER_SHEET), (send_photo, PER_PHOTO)):
            answered, syncs = synced(made, act, author, given.writes)
            ratio = syncs / max(1, answered)
            findings.say(f"{act.__name__}: answered, syncs, a write",
                         f"{answered}, {syncs}, {ratio:.1f}", f"{least} at least",
                         answered == given.writes and ratio >= least)
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
