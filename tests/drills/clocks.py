"""Clocks that are wrong: what was written stays in order, what has run out stays shut.

    python -m tests.drills.clocks [--postgres]

A token that ran out, a limit and a code of an app that were used up are tried again after the clock
was set back by an hour, in the same processes and in new ones. The web goes 2 h fast while the
worker is 2 h slow. Then the site runs through hours that are skipped and that come twice, a leap
day and the end of 32 bits. For the site's processes alone (tests.drills.other_clock).
"""
from __future__ import annotations

import argparse
import json
import sys
import time
from datetime import UTC, datetime, timedelta
from importlib.util import find_spec
from zoneinfo import ZoneInfo

from tests.drills.one_host import Findings, needs_root, site
from tests.drills.two_hosts_servers import wait_for
from tests.drills.visitor import Visitor
from tests.drills.writing import Ledger, ask, begin_sheet, differences, headers_of, people

WAITS = 20                      # s for which a slow worker is watched
STARTS = 15                     # s that the site takes to start
LIMIT, SHEETS, LATER = 12, 5, datetime(2040, 1, 1, tzinfo=UTC)
# What happens some seconds after the site has started, and in which zone its machine is.
MOMENTS = {"the hour that is skipped": ("2027-03-28 01:59:52", "Europe/Berlin"),
           "the hour that comes twice": ("2027-10-31 02:59:52", "Europe/Berlin"),
           "a leap day": ("2028-02-29 23:59:52", "UTC"),
           "the end of 32 bits": ("2038-01-19 03:14:00", "UTC")}
PAGES = ("/", "/units/", "/method/", "/health/ready", "/log/")


def clock_of(made, name: str, said: str) -> None:
    """How a process of the site sees the time from now on: seconds beside the right one."""
    (made.folder / f"clock-{name}").write_text(said)
    time.sleep(1)                       # they look twice a second


def fake(made, name: str, said: str) -> dict[str, str]:
    clock_of(made, name, said)
    return {"DJANGO_SETTINGS_MODULE": "tests.drills.other_clock",
            "DRILL_CLOCK": str(made.folder / f"clock-{name}")}


def start(made, name: str, said: str = "0", **more: str) -> None:
    plain = dict(made.environment)
    made.environment |= fake(made, name, said) | more
    if name == "web":
        made.serve()
    else:
        made.start_worker()
    made.environment = plain


def sheets(made, author, ledger) -> None:
    for _ in range(SHEETS):
        begin_sheet(made.port, author, ledger, time.monotonic() + 30)


def in_order(ledger) -> list:
    """Sheets were begun one after the other, and so they stand in the log."""
    from core.audit.models import Entry

    rows = list(Entry.objects.filter(action="unit_started", unit__in=ledger.sheets).order_by(
        "sequence").values_list("unit", flat=True))
    return [(one, other) for one, other in zip(rows, ledger.sheets, strict=False) if one != other]


def ordered(made, author, findings) -> None:
    from django_q.models import OrmQ, Task
    from django_q.tasks import async_task

    ledger = Ledger()
    start(made, "web", "7200")
    start(made, "worker", "-7200")
    sheets(made, author, ledger)
    async_task("core.audit.note_end.note_end")
    time.sleep(WAITS)
    findings.say(f"worker 2 h slow: jobs that wait for it after {WAITS} s, none lost",
                 OrmQ.objects.count())
    clock_of(made, "worker", "0")
    wait_for(lambda: OrmQ.objects.count() == 0 and Task.objects.filter(success=True).exists(), 120)
    clock_of(made, "web", "0")
    sheets(made, author, ledger)
    clock_of(made, "web", "-3600")
    sheets(made, author, ledger)
    made.kill("worker")
    findings.say("sheets begun by three clocks", len(ledger), 3 * SHEETS,
                 len(ledger) == 3 * SHEETS)
    findings.none("out of order", in_order(ledger))
    for harm, found in differences(ledger).items():
        findings.none(f"wrong clocks: {harm}", found)
    made.kill("web")


def shut(made, authors, findings) -> None:
    """Used up by the right clock, then tried by one that was set back by an hour."""
    from django.utils import timezone

    from core.accounts.models import ApiToken
    author = authors[0]
    start(made, "web", API_WRITES=str(LIMIT))
    token = ApiToken.objects.filter(owner__username=author.name)
    token.update(expires_at=timezone.now() - timedelta(minutes=10))
    limited = [begun(made, authors[1]) for _ in range(2 * LIMIT)]
    app = with_app(made)
    before = (token_status(made, author), limited.count(201), app())
    findings.say("right clock: token that ran out; writes of a limit; a code twice",
                 before, f"401, {LIMIT}, (True, False)", before == (401, LIMIT, (True, False)))
    for what, act in (("in the same processes", lambda: clock_of(made, "web", "-3600")),
                      ("in new ones", lambda: (made.kill("web"), start(
                          made, "web", "-3600", API_WRITES=str(LIMIT))))):
        act()
        again = [begun(made, authors[1]) for _ in range(LIMIT)]
        findings.say(f"an hour back, {what}: token that ran out", token_status(made, author), 401,
                     token_status(made, author) == 401)
        findings.say(f"an hour back, {what}: of a limit that was used up, given",
                     again.count(201), 0, again.count(201) == 0)
        findings.say(f"an hour back, {what}: a code that was used, of the hour before",
                     app(-3600), "(False, False)", app(-3600) == (False, False))
    made.kill("web")
    start(made, "web", "7200", API_WRITES=str(LIMIT))
    given = [begun(made, authors[1]) for _ in range(3 * LIMIT)].count(201)
    findings.say("two hours fast: of a limit, given", given, f"{LIMIT} at most",
                 given <= LIMIT)
    made.kill("web")


def token_status(made, author) -> int:
    return ask(made.port, "GET", "/api/v1/bench", None, headers_of(author))[0]


def begun(made, author) -> int:
    body = json.dumps({"title": "Limit", "kind": "plug_in"}).encode()
    return ask(made.port, "POST", "/api/v1/bench", body, headers_of(author, key=""))[0]


def with_app(made):
    """Somebody with an app; tries a code of now, or of so many s ago, twice: whether it opened."""
    from allauth.mfa.totp.internal.auth import TOTP, format_hotp_value, hotp_value

    from core.accounts.models import Role
    from tests.cast import person

    secret = "JBSWY3DPEHPK3PXP"
    TOTP.activate(person("with-app", Role.REVIEWER), secret)

    def tried(ago: int = 0) -> tuple[bool, bool]:
        code = format_hotp_value(hotp_value(secret, int((time.time() + ago) // 30)))
        return opened(made, code), opened(made, code)
    return tried


def opened(made, code: str) -> bool:
    visitor = Visitor(made.port)
    visitor.post("/sign-in/", login="with-app", password="with-app-of-the-cast")
    status, said, _ = visitor.post("/sign-in/second-factor/", code=code)
    return status == 302 and "second-factor" not in said.get("Location", "")


def lived_through(made, author, findings) -> None:
    from core.accounts.models import ApiToken

    ApiToken.objects.filter(owner__username=author.name).update(expires_at=LATER)
    for what, (moment, zone) in MOMENTS.items():
        ledger, begun_at = Ledger(), datetime.fromisoformat(moment)
        apart = begun_at.replace(tzinfo=ZoneInfo(zone)).timestamp() - time.time() - STARTS
        start(made, "web", f"{apart:.0f}", TZ=zone)
        statuses = []
        until = time.monotonic() + 25
        while time.monotonic() < until:
            begin_sheet(made.port, author, ledger, time.monotonic() + 30)
            statuses += [ask(made.port, "GET", page)[0] for page in PAGES]
        findings.say(f"{what} ({begun_at:%Y}): pages other than 200; sheets",
                     f"{sorted(set(statuses) - {200})}; {len(ledger)}", "none; some",
                     set(statuses) == {200} and len(ledger) > 0)
        findings.none(f"{what}: refused, sent again", ledger.refused
                      + list(ledger.sent_again.elements()))
        findings.none(f"{what}: out of order", in_order(ledger))
        for harm, found in differences(ledger).items():
            findings.none(f"{what}: {harm}", found)
        made.kill("web")


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--postgres", action="store_true")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    if not find_spec("time_machine"):
        print("This drill needs time-machine: pip install time-machine==3.6.0")
        return 2
    findings = Findings("Wrong clocks, on", "PostgreSQL" if given.postgres else "SQLite")
    with site(given.postgres) as made:
        authors = people(3)
        try:
            shut(made, authors, findings)
            ordered(made, authors[1], findings)
            lived_through(made, authors[2], findings)
        finally:
            for name in ("web", "worker"):
                made.print_errors_of(name)
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
