"""Back up beside writing, restore on an empty machine, compare by content; 100 damaged backups.

    python -m tests.drills.restoring [--units 20000] [--files 200] [--postgres]

By the commands of the guide alone. What was answered before the backup began must be there, each
file with its SHA-256; one byte is turned over in each of 100 copies, and each must be noticed.
--postgres needs root.
"""
from __future__ import annotations

import argparse
import json
import os
import random
import shutil
import subprocess
import sys
import threading
import time
from pathlib import Path

from tests.drills.one_host import Findings, needs_root, site
from tests.drills.two_hosts_servers import PYTHON, ROOT
from tests.drills.writing import Ledger, begin_sheet, people, send_log, send_photo

COPIES, LONGEST = 100, 600.0                # …, s to restore
# Said by the restored site itself, about each thing that was answered before the backup.
LOOK = """
import json, sys
from tests.drills.writing import Ledger, differences
said = json.load(open({ledger!r}))
ledger = Ledger()
ledger.sheets = {{int(key): title for key, title in said["sheets"]}}
for name in ("photos", "logs"):
    setattr(ledger, name, {{tuple(at): sha for at, sha in said[name]}})
print(json.dumps({{harm: len(found) for harm, found in differences(ledger).items()}}))
"""


def written_down(ledger, path: Path) -> None:
    path.write_text(json.dumps({name: list(getattr(ledger, name).items())
                                for name in ("sheets", "photos", "logs")}))


def backed_up(made, authors, files, findings) -> Path:
    ledger, enough, folder = Ledger(), threading.Event(), made.folder / "bags"
    for number in range(files):
        act = (send_photo, send_log, begin_sheet)[number % 3]
        act(made.port, authors[number % len(authors)], ledger, time.monotonic() + 60)
    written_down(ledger, made.folder / "ledger.json")
    later = Ledger()
    writer = threading.Thread(target=go_on, args=[made, authors[0], later, enough])
    writer.start()
    begun = time.monotonic()
    made.manage("backup", str(folder))
    findings.say("backup beside the writing, s", f"{time.monotonic() - begun:.1f}")
    enough.set()
    writer.join()
    findings.say("answered before it; while it was made", f"{len(ledger)}; {len(later)}", "some",
                 len(ledger) > 0 and len(later) > 0)
    findings.none("refused", ledger.refused + later.refused)
    return folder


def go_on(made, author, ledger, enough) -> None:
    while not enough.is_set():
        begin_sheet(made.port, author, ledger, time.monotonic() + 60)
        time.sleep(0.2)


def restored(made, folder, findings) -> None:
    made.environment |= {"UNDERPLATE_DATA_DIR": str(made.folder / "empty")}
    if made.postgres:
        import psycopg

        with psycopg.connect(made.postgres.url, autocommit=True) as server:
            server.execute("CREATE DATABASE empty")
        made.environment["DATABASE_URL"] = f"{made.postgres.url.rpartition('/')[0]}/empty"
    (made.folder / "empty").mkdir(mode=0o700)
    begun = time.monotonic()
    said = made.manage("restore", str(folder))
    took = time.monotonic() - begun
    print("    " + said.splitlines()[0])
    findings.say("restored, s", f"{took:.1f}", f"{LONGEST:.0f}", took <= LONGEST)
    looked = made.manage("shell", "--no-imports", "-c",
                         LOOK.format(ledger=str(made.folder / "ledger.json")))
    for harm, count in json.loads(looked.splitlines()[-1]).items():
        findings.none(f"there: {harm}", count)
    missing = made.manage("sweep_files").split()[-2]
    findings.say("files that rows name and that are missing", missing, 0, missing == "0")


def damaged(folder: Path, findings) -> None:
    """The check needs no database: it is asked of the bag alone, with one byte turned over."""
    bag = sorted(path for path in folder.iterdir() if path.name[0].isdigit())[-1]
    copy = folder.parent / "damaged" / bag.name
    shutil.copytree(bag, copy)
    files = sorted(path for path in copy.rglob("*") if path.is_file() and path.stat().st_size)
    draw = random.Random(21)
    done = subprocess.run([PYTHON, "-c", CHECK], input="\n".join(
        f"{draw.choice(files)}\t{draw.random()}\t{draw.randrange(1, 256)}" for _ in range(COPIES)),
        cwd=ROOT, env=os.environ | {"BAG": str(copy)}, capture_output=True, text=True, check=True)
    findings.none(f"of {COPIES} damaged backups, not noticed", done.stdout.splitlines())


CHECK = """
import os, sys
from pathlib import Path
from core.backup.bags import Damaged, check_bag
for line in sys.stdin.read().splitlines():
    name, where, turned = line.split("\\t")
    path = Path(name)
    whole = path.read_bytes()
    at = int(float(where) * len(whole))
    path.write_bytes(whole[:at] + bytes([whole[at] ^ int(turned)]) + whole[at + 1:])
    try:
        check_bag(Path(os.environ["BAG"]), lambda *about: None)
        print(line)
    except Damaged:
        pass
    path.write_bytes(whole)
check_bag(Path(os.environ["BAG"]), lambda *about: None)
"""


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--units", type=int, default=20_000)
    asked.add_argument("--files", type=int, default=200)
    asked.add_argument("--postgres", action="store_true")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    findings = Findings(f"{given.units} units backed up and restored, on",
                        "PostgreSQL" if given.postgres else "SQLite")
    with site(given.postgres, given.units) as made:
        made.serve()
        folder = backed_up(made, people(4), given.files, findings)
        made.kill("web")
        damaged(folder, findings)
        restored(made, folder, findings)
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
