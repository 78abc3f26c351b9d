"""A release is put back: the former code on the database that this one wrote. It reads, or refuses.

    python -m tests.drills.rollback [--units 300] [--postgres] [--releases 1]

This code fills a database and writes to it; then former code, of so many releases back, serves
it: every page that a link leads to is asked for, by a stranger and by somebody with a bench, and
sheets, photos, logs and blocks of a file are sent. Nothing may be 500, and all that was written
stays. Then this code serves again. Needs the history of the code; --postgres needs root.
"""
from __future__ import annotations

import argparse
import re
import sys
import time
import uuid
from collections import Counter, deque

from tests.drills.one_host import Findings, needs_root, site
from tests.drills.releases import RELEASES, public_unit, unpacked
from tests.drills.two_hosts_servers import ROOT
from tests.drills.uploads import Sender
from tests.drills.visitor import Visitor
from tests.drills.writing import (
    Ledger,
    begin_sheet,
    differences,
    log,
    people,
    picture,
    send_log,
    send_photo,
)

MOST_PAGES, WRITES = 150, 5
STARTS = ("/", "/units/", "/parts/", "/population/", "/method/", "/data/", "/log/", "/api/",
          "/api/v1/units", "/search/?q=power", "/account/", "/bench/")
# What does something, or is made by a child process for a minute.
NOT_ASKED = re.compile(r"^/(sign-out|static|account/delete)|\.(pdf|zip|svg|png|webp)$|/lang")


def walked(port, session="") -> tuple[Counter[int], list[str]]:
    """Statuses, and pages that broke, of all that links lead to from the starts."""
    visitor, statuses, broken = Visitor(port), Counter(), []
    if session:
        visitor.cookies["session"] = session
    waiting, seen = deque(STARTS), set(STARTS)
    while waiting and len(seen) - len(waiting) < MOST_PAGES:
        path = waiting.popleft()
        status, _, body = visitor.get(path)
        statuses[status] += 1
        if status == 500:
            broken.append(path)
        for found in re.findall(r'href="(/[^"#]*)"', body.decode(errors="replace")):
            address = found.replace("&amp;", "&")
            if address not in seen and not NOT_ASKED.search(address):
                seen.add(address)
                waiting.append(address)
    return statuses, broken


def written(port, author, ledger, unit) -> list[int]:
    """Statuses of what is no row of the ledger: blocks, a record on paper, somebody new."""
    for _ in range(WRITES):
        for act in (begin_sheet, send_photo, send_log):
            act(port, author, ledger, time.monotonic() + 30)
    statuses = []
    for kind, content in (("photos", picture()), ("recordings", log())):
        sender = Sender(port, author, kind, content)
        statuses += [sender.begin(), sender.put(content, 0)[0]]
    visitor, name = Visitor(port), f"newcomer-{uuid.uuid4().hex[:8]}"
    statuses.append(visitor.post(f"/units/{unit}/report/")[0])
    statuses.append(visitor.post("/sign-up/", username=name, email=f"{name}@cast.example",
                                 password1="7 brass kettles, warm")[0])
    return statuses


def put_back(made, commit, what, author, findings) -> None:
    ledger, ours = Ledger(), made.environment["UNDERPLATE_DATA_DIR"]
    made.root = unpacked(commit, made.folder)
    made.environment["STATIC_ROOT"] = f"{ours}/static-{commit}"
    made.manage("collectstatic", "--no-input", "-v0")
    made.serve()
    for who, session in (("a stranger", ""), ("somebody with a bench", author.session)):
        statuses, broken = walked(made.port, session)
        findings.say(f"{what} put back: pages for {who}", dict(sorted(statuses.items())), "some",
                     statuses[200] > 20)
        findings.none(f"{what} put back: pages of {who} that are 500", broken)
    statuses = written(made.port, author, ledger, public_unit(made))
    findings.say(f"{what} put back: kept; blocks, paper, newcomer; not kept",
                 f"{len(ledger)}; {statuses}; {dict(ledger.sent_again)} {ledger.refused[:2]}",
                 f"{3 * WRITES}; no 500", 500 not in statuses and "500" not in ledger.sent_again)
    made.kill("web")
    made.root = ROOT
    del made.environment["STATIC_ROOT"]
    for harm, found in differences(ledger).items():
        findings.none(f"{what} put back: {harm}", found)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--units", type=int, default=300)
    asked.add_argument("--releases", type=int, default=1)
    asked.add_argument("--postgres", action="store_true")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    findings = Findings("A release put back, on", "PostgreSQL" if given.postgres else "SQLite")
    with site(given.postgres, given.units) as made:
        author, = people(1)
        first = Ledger()
        made.serve()
        written(made.port, author, first, public_unit(made))
        made.kill("web")
        for commit, what in list(RELEASES.items())[:-given.releases - 1:-1]:
            put_back(made, commit, what, author, findings)
            made.print_errors_of("web")
        made.serve()
        statuses, broken = walked(made.port, author.session)
        findings.say("this release again: pages", dict(sorted(statuses.items())), "no 500",
                     not broken)
        for harm, found in differences(first).items():
            findings.none(f"written before and between: {harm}", found)
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
