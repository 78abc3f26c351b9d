"""A site on an engine that loses commits, on settings that lose them: it falls back or says so.

    python -m tests.drills.engine

The engine is Python's own SQLite (where it is an affected one), with the package pysqlite3 hidden.
"""
from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.drills.one_host import Findings
from tests.drills.two_hosts_servers import PYTHON, ROOT

HIDDEN = "raise ImportError('hidden by a drill')\n"
LOOSE = """from core.settings import *
OPTIONS = DATABASES["default"]["OPTIONS"]
DATABASES["default"]["OPTIONS"] = OPTIONS | {changed}
"""
CASES = {       # what is wrong → settings, and what has to be said
    "synchronous NORMAL": (
        '{"init_command": OPTIONS["init_command"].replace("FULL", "NORMAL")}', "fault",
        "may be lost with the power"),
    "transactions DEFERRED": ('{"transaction_mode": "DEFERRED"}', "fault",
                              "Writers do not wait their turn"),
}


def examined(folder: Path, settings: str) -> list[dict]:
    done = subprocess.run([PYTHON, "manage.py", "doctor", "sqlite", "--json"], cwd=ROOT,
                          env=os.environ | {"UNDERPLATE_DATA_DIR": str(folder),
                                            "DJANGO_SETTINGS_MODULE": settings,
                                            "PYTHONPATH": str(folder / "modules")},
                          capture_output=True, text=True, check=False)
    return json.loads(done.stdout)


def says(found, level, words) -> bool:
    return any(each["level"] == level and words in each["said"] for each in found)


def main() -> int:
    findings = Findings("Engines and settings of SQLite")
    with tempfile.TemporaryDirectory() as name:
        folder, modules = Path(name), Path(name) / "modules"
        modules.mkdir()
        (modules / "pysqlite3.py").write_text(HIDDEN)
        version = subprocess.run([PYTHON, "-c", "import sqlite3; print(sqlite3.sqlite_version)"],
                                 capture_output=True, text=True, check=True).stdout.strip()
        found = examined(folder, "core.settings")
        fell_back = says(found, "warning", "the rollback journal is used") \
            and says(found, "good", "Journal: delete")
        findings.say(f"engine {version}: rollback journal, and said", fell_back, True, fell_back)
        (modules / "pysqlite3.py").unlink()
        for number, (what, (changed, level, words)) in enumerate(CASES.items()):
            (modules / f"loose_{number}.py").write_text(LOOSE.format(changed=changed))
            said = says(examined(folder, f"loose_{number}"), level, words)
            findings.say(f"{what}: said", said, True, said)
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
