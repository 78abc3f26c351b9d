"""Requests at a fixed rate, a mix of reading and writing, and every answered write looked up after.

    python -m tests.drills.load [--rate 100] [--minutes 10] [--units 2000] [--postgres]
                                [--during reassess | hostile | backup] [--overload] [--warm]

The site is served as shipped, on loopback, with a worker beside it; the client is a process of its
own on the same machine. A request is due when the clock says so, and its time counts from then,
whether or not a thread was free to send it. Readers come from many networks, as a proxy would say;
limits on the API and on accounts are lifted. Photos have 3 MB and 2.2 megapixels. It begins cold:
no page was made yet. --warm asks for each page and answer once before that, and after what filling
the database left to do (which units are alike, what sister boards showed: it moves their pages), as
on a site that has been there for a day. --overload
asks for `--rate` for a minute, then for a tenth of it, and wants 503 meanwhile and none of it ten
seconds later. --postgres needs root.
"""
from __future__ import annotations

import argparse
import http.client
import itertools
import json
import os
import random
import sys
import threading
import time
import uuid
from collections import Counter, defaultdict
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.drills.one_host import Findings, needs_root, seconds_since, site
from tests.drills.writing import (
    Author,
    Ledger,
    ask,
    differences,
    headers_of,
    people,
    picture,
    send_log,
    send_photo,
)

# Each changes something twelve times in ten minutes: with forty, sheets would grow by a reading
# every eight seconds.
AUTHORS = 400
PATIENCE = 30.0                                     # s until a client gives up
NETWORKS, PROGRAMS = 5000, 20                       # networks that readers and programs come from
QUEUED = 8.0                                        # s of requests that wait, each in its thread
LARGE = (1700, 1300)                                # pixels of a photo of 3 MB, for it is noise
MOST_READS, WARM_UP = 0.150, 10.0                   # s at p95; s that are not counted
RECOVERS, OVER = 10.0, 60.0                         # s
IDLE = 0.25                                         # s of processor in 5 s
SHARES = {"unit page": 40, "list, search": 20, "API read": 15, "picture": 10, "dashboard": 5,
          "edit": 5, "photo": 2, "log": 1, "comment": 1, "export": 1}
READS = ("unit page", "list, search", "API read", "picture", "dashboard")
SEARCHES = ("q=45", "q=USB-C", "verdict=refuted", "page=2", "q=planar&kind=plug_in", "")


@dataclass
class Asked:
    kind: str
    due: float              # s after the beginning
    took: float             # s from when it was due
    status: int             # 0: no answer
    told_when: bool = True  # a 503 says when to come back


class World:
    """What can be asked for, and who asks."""

    def __init__(self, site):
        self.port, self.ledger = site.port, Ledger()
        self.authors = people(AUTHORS)
        self.units, self.picture = public(self.authors[0], site.folder)
        self.draw = random.Random(8)

    def skewed(self) -> int:
        """Few units are read often."""
        return self.units[int(len(self.units) * self.draw.random() ** 3)]

    def act(self, kind: str) -> tuple[int, bool]:
        author = self.draw.choice(self.authors)
        return ACTS[kind](self, author)

    def get(self, path: str, networks: int = NETWORKS, **headers: str) -> tuple[int, bool]:
        high, low = divmod(self.draw.randrange(networks), 250)
        headers["X-Forwarded-For"] = f"10.8.{high}.{low + 1}"
        status, said, _ = ask(self.port, "GET", path, None, headers, PATIENCE)
        return status, status != 503 or "Retry-After" in said


def public(author: Author, folder: Path) -> tuple[list[int], str]:
    """The public units, and the address of one picture of one of them."""
    from django.urls import reverse

    from core.accounts.models import User
    from teardowns.models import ListedUnit, Photo, Unit
    from teardowns.services.receive_photo import receive_photo
    from tests.handing_in import with_plate
    from tests.published import published

    owner = User.objects.get(username=author.name)
    unit = with_plate(Unit.objects.create(contributor=owner, title="With a picture"), owner)
    path = folder / "shown.jpg"
    path.write_bytes(picture(LARGE))
    receive_photo(contributor=owner, unit_pk=unit.pk, path=path, name="shown.jpg")
    published(unit)
    photo = Photo.objects.get(unit=unit)
    width = photo.derivatives.order_by("width").first().width
    pks = ListedUnit.objects.filter(is_listed=True).order_by("-pk").values_list("unit", flat=True)
    return list(pks), reverse("photo_picture", args=[unit.pk, photo.key, width])


def written(world, act: Callable[[], object]) -> tuple[int, bool]:
    """A write through the ledger: 0 tries more than one."""
    ledger = Ledger()
    act(ledger)
    with world.ledger.lock:
        for name in ("photos", "logs", "rows", "comments"):
            getattr(world.ledger, name).update(getattr(ledger, name))
        world.ledger.refused += ledger.refused
    again = next(iter(ledger.sent_again), "")
    return (201 if len(ledger) else int(again) if again.isdigit() else 0), True


def edit(world, author) -> tuple[int, bool]:
    key, value = f"m-{uuid.uuid4()}", world.draw.randrange(10, 90_000) / 1e5
    status, said, _ = ask(
        world.port, "PUT", f"/api/v1/bench/{author.unit}/evidence/measurements/{key}",
        json.dumps({"quantity": "mass_total", "value": value, "how": "measured"}).encode(),
        headers_of(author), PATIENCE)
    if status == 200:
        with world.ledger.lock:
            world.ledger.rows[author.unit, key] = value
    return status, status != 503 or "Retry-After" in said


def comment(world, author) -> tuple[int, bool]:
    text, unit = f"Seen on the board: {uuid.uuid4()}", world.skewed()
    status, said, body = ask(world.port, "POST", f"/api/v1/units/{unit}/comments",
                             json.dumps({"text": text}).encode(),
                             headers_of(author, key=str(uuid.uuid4())), PATIENCE)
    if status == 201:
        with world.ledger.lock:
            world.ledger.comments[text] = unit
    return status, status != 503 or "Retry-After" in said


ACTS: dict[str, Callable] = {
    "unit page": lambda world, author: world.get(f"/units/{world.skewed()}/"),
    "list, search": lambda world, author: world.get(f"/units/?{world.draw.choice(SEARCHES)}"),
    "API read": lambda world, author: world.get(world.draw.choice(
        (f"/api/v1/units/{world.skewed()}", "/api/v1/units")), PROGRAMS),
    "picture": lambda world, author: world.get(world.picture),
    "dashboard": lambda world, author: world.get("/bench/", Cookie=f"session={author.session}"),
    "edit": edit,
    "photo": lambda world, author: written(world, lambda ledger: send_photo(
        world.port, author, ledger, 0, LARGE)),
    "log": lambda world, author: written(world, lambda ledger: send_log(
        world.port, author, ledger, 0)),
    "comment": comment,
    "export": lambda world, author: world.get("/units/list.csv?q=45"),
}


def asked_at(world, rate: float, seconds: float) -> list[Asked]:
    """Everything that was due in so many seconds, each sent when it was due or as soon after."""
    draw = random.Random(80)
    kinds = draw.choices(list(SHARES), SHARES.values(), k=int(rate * seconds))
    turns, done = itertools.count(), []
    begun = time.monotonic() + 0.5

    def client():
        while (turn := next(turns)) < len(kinds):
            due = begun + turn / rate
            time.sleep(max(0.0, due - time.monotonic()))
            try:
                status, told = world.act(kinds[turn])
            except (OSError, http.client.HTTPException):
                status, told = 0, True
            done.append(Asked(kinds[turn], due - begun, time.monotonic() - due, status, told))

    threads = [threading.Thread(target=client) for _ in range(50 + int(QUEUED * rate))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return done


def share(times: list[float], of: float) -> float:
    return sorted(times)[min(len(times) - 1, int(of * len(times)))]


def told(done: list[Asked], findings) -> None:
    print(f"{'ms from when it was due':<24}{'asked':>7}{'p50':>8}{'p95':>8}{'p99':>8}{'max':>8}")
    for kind in SHARES:
        times = [1000 * each.took for each in done if each.kind == kind]
        if times:
            figures = "".join(f"{share(times, of):>8.0f}" for of in (0.5, 0.95, 0.99, 1))
            print(f"{kind:<24}{len(times):>7}{figures}")
    reads = [each.took for each in done if each.kind in READS]
    p95 = share(reads, 0.95)
    findings.say("reads, ms: p50, p95, p99", ", ".join(
        f"{1000 * share(reads, of):.0f}" for of in (0.5, 0.95, 0.99)),
        f"p95 {1000 * MOST_READS:.0f}", p95 <= MOST_READS)


def statuses(done) -> dict[int, int]:
    return dict(sorted(Counter(each.status for each in done).items()))


def by_minute(done, findings) -> None:
    """What a figure for the whole time hides: a bad minute, and whether it gets worse."""
    reads, late = defaultdict(list), Counter(
        int(each.due // 60) + 1 for each in done if each.status == 503)
    for each in done:
        if each.kind in READS:
            reads[int(each.due // 60) + 1].append(each.took)
    findings.say("reads p95 by the minute, ms", ", ".join(
        f"{1000 * share(reads[minute], 0.95):.0f}" for minute in sorted(reads)))
    if late:
        findings.say("503 by the minute", dict(sorted(late.items())))


def processor(site) -> dict[str, float]:
    """s of processor that web and worker have used, with the children they waited for."""
    used = dict.fromkeys(site.started, 0.0)
    for stat in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            fields = stat.read_text().rpartition(")")[2].split()
            for name, process in site.started.items():
                if int(fields[2]) == process.pid:               # the group, named by its first
                    used[name] += sum(map(int, fields[11:15])) / os.sysconf("SC_CLK_TCK")
    return used


def steady(site, world, given, findings) -> None:
    before, used = os.times(), processor(site)
    begun = time.monotonic()
    done = asked_at(world, given.rate, 60 * given.minutes + WARM_UP)
    counted = [each for each in done if each.due >= WARM_UP]
    spent = os.times().user + os.times().system - before.user - before.system
    findings.say("asked, in s", f"{len(done)}, {seconds_since(begun)}")
    findings.say("answered, by status", statuses(counted))
    by_minute(counted, findings)
    told(counted, findings)
    findings.none("answers of 500 and more, or none", [
        f"{each.kind} {each.status} at {each.due:.1f} s" for each in counted
        if not 0 < each.status < 500])
    seconds = time.monotonic() - begun
    shares = {name: used_by - used[name] for name, used_by in processor(site).items()}
    findings.say("processors used: client, web, worker", ", ".join(
        f"{each / seconds:.2f}" for each in (spent, shares["web"], shares["worker"])))


def catch_up() -> int:
    """Runs of what a worker does by the hour, a slice at a time, until nothing waits."""
    from teardowns.services.compare_sisters import compare_sisters
    from teardowns.services.find_likenesses import find_likenesses

    rounds = 0
    while find_likenesses() + compare_sisters():
        rounds += 1
    return rounds


def warm(site, world, findings) -> None:
    """Nothing waits, every page and answer was asked for once, and the worker is idle."""
    begun = time.monotonic()
    findings.say("slices of what was left to do, in s",
                 f"{catch_up()}, {seconds_since(begun)}")
    begun = time.monotonic()
    for pk in world.units:
        world.get(f"/units/{pk}/")
        world.get(f"/api/v1/units/{pk}")
    for search in SEARCHES:
        world.get(f"/units/?{search}")
    last = -1.0
    while (used := processor(site)["worker"]) - last > IDLE:
        last = used
        time.sleep(5)
    findings.say("pages asked for once, in s", f"{len(world.units)}, {seconds_since(begun)}")


def overload(site, world, given, findings) -> None:
    asked_at(world, given.rate / 10, WARM_UP)
    over = asked_at(world, given.rate, OVER)
    after = asked_at(world, given.rate / 10, 2 * RECOVERS)
    refused = [each.took for each in over if each.status == 503]
    served = [each.took for each in over if each.status == 200 and each.kind in READS]
    findings.say(f"answered at {given.rate}/s, by status", statuses(over), "also 503",
                 bool(refused))
    if refused:
        findings.say("503 after, s: p50, longest", f"{share(refused, 0.5):.1f}, {max(refused):.1f}")
    findings.say("reads that were served, s: p50, p95", ", ".join(
        f"{share(served, of):.1f}" for of in (0.5, 0.95)) if served else "none")
    findings.none("other answers of 500 and more, or none", [
        f"{each.kind} {each.status} after {each.took:.1f} s" for each in over
        if each.status != 503 and not 0 < each.status < 500])
    findings.none("503 without Retry-After", [each for each in over if not each.told_when])
    late = [each.due + each.took for each in after if not 0 < each.status < 500
            or each.took > 1 and each.kind in READS]
    last = max(late, default=0)
    findings.say("s until all is answered, and read within a second, again", f"{last:.1f}",
                 RECOVERS, last <= RECOVERS)


def beside(site, what: str, enough: threading.Event, findings) -> None:
    """What goes on meanwhile, again and again."""
    rounds = 0
    while not enough.wait(1):
        try:
            DURING[what](site)
            rounds += 1
        except SystemExit as error:
            findings.none(f"{what} that went wrong", [str(error)])
            return
    findings.say(f"{what} beside it, times", rounds)


@cache
def hostile_files() -> list:
    from tests.hostile.images import cases

    return [case for _, case in cases()]


def send_hostile(site) -> None:
    author, case = site.hostile, random.choice(hostile_files())
    status, _, said = ask(site.port, "POST", f"/api/v1/bench/{author.unit}/photos", case.data,
                          headers_of(author, "application/octet-stream"))
    if status not in (200, 201, 413, 422, 503):
        raise SystemExit(f"{case.name}: {status} {said[:200]!r}")


DURING = {"reassess": lambda site: site.manage("reassess"),
          "backup": lambda site: site.manage("backup", str(site.folder / "bags"), "--keep", "2"),
          "hostile": send_hostile}


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--rate", type=float, default=100)
    asked.add_argument("--minutes", type=float, default=10)
    asked.add_argument("--units", type=int, default=2000)
    asked.add_argument("--postgres", action="store_true")
    asked.add_argument("--during", choices=DURING)
    asked.add_argument("--overload", action="store_true")
    asked.add_argument("--warm", action="store_true")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    findings = Findings("Load on", "PostgreSQL" if given.postgres else "SQLite",
                        f"{given.rate:.0f} requests a second, {given.units} units")
    with site(given.postgres, given.units, BEHIND_PROXY="1") as made:
        world, enough = World(made), threading.Event()
        made.hostile = people(1, "hostile")[0]
        made.serve()
        made.start_worker()
        if given.warm:
            warm(made, world, findings)
        other = threading.Thread(target=beside, args=[made, given.during, enough, findings])
        if given.during:
            other.start()
        (overload if given.overload else steady)(made, world, given, findings)
        enough.set()
        if given.during:
            other.join()
        findings.say("answered writes", len(world.ledger), "some", len(world.ledger) > 0)
        findings.none("refused", world.ledger.refused)
        for harm, found in differences(world.ledger).items():
            findings.none(harm, found)
        made.print_errors_of("web")
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
