"""Re-assessing dies at every border of a slice and inside it: no page mixes two rulebooks.

    python -m tests.drills.reassessing [--units 30] [--kills 6] [--postgres]

Another set of scenarios comes into force, and whoever assesses every unit with it ends itself at
each seam once: before and after what it computes, each step that it writes, each commit. After
every death each record is read over HTTP and each row of the list held against what stands; then
it goes on, and what it computes once more is counted. At last `manage.py reassess` is killed at
random with two processes. --postgres needs root.
"""
from __future__ import annotations

import argparse
import json
import os
import random
import signal
import subprocess
import sys
import time
from collections import Counter
from contextlib import suppress
from pathlib import Path
from urllib.request import urlopen

from tests.drills.one_host import HERE, Findings, needs_root, site
from tests.drills.two_hosts_servers import PYTHON, ROOT, wait_for

SIZE = 10               # units a slice here, so that there are some
STEPS = ("foresee", "_write_back", "keep_assessments", "_stand", "_tell", "become_newest",
         "list_units")


def put_in_force(number: int) -> str:
    """Another set of scenarios, whose version is told: in every second one each step is rare, so
    that levels move."""
    from core.accounts.models import User
    from teardowns.engine import rulebook
    from teardowns.engine.scenarios import written
    from teardowns.models import ScenarioSet
    from teardowns.services.active_rulebook import active_rulebook

    scenarios = written(rulebook.load().scenarios)
    for step in (step for one in scenarios for step in one["steps"] if number % 2):
        step["p"] = "0.001"
    ScenarioSet.objects.filter(is_active=True).update(is_active=False)
    ScenarioSet.objects.create(
        number=number, digest=f"{number:08x}" * 8, author=User.objects.first(), is_active=True,
        reason="A drill.", scenarios=scenarios)
    return active_rulebook().version


def assess_all(at: int, told: Path) -> None:
    """In a process of its own, which ends itself at seam `at`; 0: at none."""
    from django.db import connection

    from teardowns.services import foresee_assessments
    from teardowns.services import reassess_publications as service

    passed, computed, inner = [], [], foresee_assessments.verdicts

    def seam(name):
        passed.append(name)
        if len(passed) == at:
            told.write_text(json.dumps([passed, sum(computed)]))
            os.kill(os.getpid(), signal.SIGKILL)

    def between(name, act):
        def acted(*args, **kwargs):
            seam(f"before {name}")
            made = act(*args, **kwargs)
            seam(f"after {name}")
            return made
        return acted

    def verdicts(documents, *asked):
        computed.append(len(documents))
        return inner(documents, *asked)

    foresee_assessments.verdicts = verdicts
    for name in STEPS:
        setattr(service, name, between(name, getattr(service, name)))
    connection._commit = between("commit", connection._commit)
    after: int | None = 0
    while after is not None:
        after = service.reassess_slice(after, SIZE)
        seam("slice done")
    told.write_text(json.dumps([passed, sum(computed)]))


def in_child(at: int, told: Path) -> tuple[list[str], int]:
    """The seams that it went by, and how many reports it computed."""
    from django.db import connections

    connections.close_all()
    if not (child := os.fork()):
        try:
            assess_all(at, told)
        finally:
            os._exit(0)
    os.waitpid(child, 0)
    passed, computed = json.loads(told.read_text())
    return passed, computed


def mixed(port: int, rulebooks: set[str]) -> list[str]:
    """Records and rows of the list that do not say one thing."""
    from teardowns.engine.risk import ORDER
    from teardowns.models import Publication
    from teardowns.services.list_units import listing_differences

    found = [f"row of unit {pk}: {columns}" for pk, columns in listing_differences()]
    for one in Publication.objects.current().select_related("standing", "standing_all"):
        said = {one.standing.rulebook, one.standing_all.rulebook}
        if len(said) != 1 or not said <= rulebooks:
            found.append(f"version {one.pk}: {said}")
        with urlopen(f"http://{HERE}:{port}/api/v1/units/{one.unit_id}", timeout=30) as answer:
            record = json.load(answer)
        level = max((ORDER.index(each["level"]) for each in record["findings"]), default=0)
        if {record["rulebook"]} != said or level != record["risk"]:
            found.append(f"record of unit {one.unit_id}: {record['rulebook']}, level {level}, "
                         f"listed with {record['risk']}")
    return found


def halves(rulebook: str) -> list[int]:
    """Slices of which some versions stand under this rulebook and others do not."""
    from teardowns.models import Unit

    found = list(Unit.objects.order_by("pk").values_list("pk", "publication__standing__rulebook"))
    slices = [found[at:at + SIZE] for at in range(0, len(found), SIZE)]
    return [part[0][0] for part in slices
            if len({stands == rulebook for _, stands in part if stands}) > 1]


def every_seam(made, findings) -> None:
    told, number = made.folder / "told", 2
    rulebook = put_in_force(number)
    seams, whole = in_child(0, told)
    print("    " + ", ".join(f"{name} ×{count}" for name, count in Counter(seams).items()))
    wrong, torn, again, most = [], [], [], 0
    for at in range(1, len(seams) + 1):
        before, number = rulebook, number + 1
        rulebook = put_in_force(number)
        passed, computed = in_child(at, told)
        wrong += [f"{passed[-1]}: {one}" for one in mixed(made.port, {before, rulebook})]
        torn += [f"{passed[-1]}: {pk}" for pk in halves(rulebook)]
        _, rest = in_child(0, told)
        most = max(most, computed + rest - whole)
        again += [f"{passed[-1]}: {computed} and {rest} of {whole}"] * (
            computed + rest > whole + 2 * SIZE)
    findings.say("seams at which it died once", len(seams), "some", len(seams) > 0)
    findings.none("records and rows of the list that mix two rulebooks", wrong)
    findings.none("slices that were kept in part", torn)
    findings.say("reports computed once more, at most (a slice has twice as many as units)", most,
                 2 * SIZE, not again)
    findings.none("mixed after it went on", mixed(made.port, {rulebook}))


def at_random(made, kills, findings) -> None:
    from teardowns.services.active_rulebook import active_rulebook

    before = active_rulebook().version
    wrong, done, rulebook = [], 0, put_in_force(10_000)
    for _ in range(kills):
        process = subprocess.Popen(
            [PYTHON, "manage.py", "reassess", "--processes", "2"], cwd=ROOT, text=True,
            env=os.environ | made.environment, start_new_session=True, stdout=subprocess.DEVNULL)
        time.sleep(random.uniform(2, 8))
        done += process.poll() is not None
        with suppress(ProcessLookupError):
            os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        wrong += mixed(made.port, {before, rulebook})
    made.manage("reassess", "--processes", "2")
    findings.say("kills of `manage.py reassess` with two processes; it was done before",
                 f"{kills}, {done}")
    findings.none("records and rows that mix two rulebooks", wrong)
    findings.none("mixed at the end", mixed(made.port, {rulebook}))


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--units", type=int, default=30)
    asked.add_argument("--kills", type=int, default=6)
    asked.add_argument("--postgres", action="store_true")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    findings = Findings("Re-assessing on", "PostgreSQL" if given.postgres else "SQLite")
    with site(given.postgres, given.units) as made:
        made.serve()
        wait_for(made.is_up)
        every_seam(made, findings)
        at_random(made, given.kills, findings)
        made.print_errors_of("web")
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
