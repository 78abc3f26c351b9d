"""Thousands of hostile files, by page, in blocks and by the API: what became of each.

    python -m tests.drills.hostile_files [--pictures 5600] [--logs 1400] [--seed 0] [--postgres]
                                         [--pillow FILE | --without-pillow]

Sends our own hostile pictures, logs, names and bodies, spoilt variants of them by a seed, and the
test pictures of Pillow's source archive, which pip fetches into the drill's folder (--pillow FILE:
an archive that is there already). Every log that was taken is then read as its page proposes.
Wanted: no answer of 500 and more, none that takes longer than a minute, nothing left behind, every
picture that was taken made anew, every original as it was sent. --postgres needs root.
"""
from __future__ import annotations

import argparse
import os
import sys
import time
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from tests.drills.hostile_answers import Answered, ledger_of, remains, shown_wrongly
from tests.drills.hostile_senders import Sender, read_log, send_bodies
from tests.drills.memory import Watched
from tests.drills.one_host import Findings, needs_root, seconds_since, site
from tests.drills.writing import differences, people
from tests.hostile.corpus import LOGS, PHOTOS, corpus, counted, fetched

AUTHORS, AT_ONCE, IN_A_FORM = 37, 4, 5      # 37 and 4 share no factor: each author goes all ways
MOST_CHILD, MOST_WEB = 1_600, 400       # MB
SLOWEST = 60.0                          # s until an answer


def main() -> int:
    given = arguments()
    if given.postgres:
        needs_root()
    findings = Findings("Hostile files on", "PostgreSQL" if given.postgres else "SQLite")
    with site(given.postgres) as made:
        archive = None if given.without_pillow else given.pillow or fetched(made.folder)
        files = corpus(archive, given.pictures, given.logs, given.seed)
        authors = people(AUTHORS, "hostile")
        made.environment["TMPDIR"] = str(made.folder / "temporary")
        (made.folder / "temporary").mkdir()
        made.serve()
        with Watched(made.started["web"].pid) as while_sent:
            answered = sent(made, authors, files)
        with Watched(made.started["web"].pid) as after:
            bodies = send_bodies(made.port, authors[0])
            read = all_read(made, authors)
        told(files, answered, bodies, read, findings)
        findings.say("memory of a child at most, MB", while_sent.child, MOST_CHILD,
                     0 < while_sent.child <= MOST_CHILD)
        findings.say("memory of a web process at most, MB", while_sent.web, MOST_WEB,
                     while_sent.web <= MOST_WEB)
        findings.say("…, logs read and bodies sent as well, MB", after.web, MOST_WEB,
                     after.web <= MOST_WEB)
        kept(made, answered, authors, findings)
        made.print_errors_of("web")
    return findings.exit()


def arguments() -> argparse.Namespace:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--pictures", type=int, default=5600, help="spoilt variants of pictures")
    asked.add_argument("--logs", type=int, default=1400, help="spoilt variants of logs")
    asked.add_argument("--seed", type=int, default=0)
    asked.add_argument("--postgres", action="store_true")
    asked.add_argument("--pillow", type=Path)
    asked.add_argument("--without-pillow", action="store_true")
    return asked.parse_args()


def sent(made, authors, files) -> list[Answered]:
    """Each file once, dealt out to authors and ways; several at once, as people would."""
    lots = [lot for kind in (PHOTOS, LOGS) for lot in in_lots(kind, files)]
    done: list[Answered] = []

    def send(numbered):
        number, lot = numbered
        return Sender(made.port, authors[number % len(authors)]).send(number, lot)

    begun = time.monotonic()
    with ThreadPoolExecutor(AT_ONCE) as pool:
        for number, found in enumerate(pool.map(send, enumerate(lots))):
            done += found
            if number % 200 == 199:
                print(f"    {len(done)} of {len(files)} after {seconds_since(begun)} s, load "
                      f"{os.getloadavg()[0]:.1f}", flush=True)
    return done


def in_lots(kind, files):
    those = [each for each in files if each.kind == kind]
    return [those[at:at + IN_A_FORM] for at in range(0, len(those), IN_A_FORM)]


def all_read(made, authors) -> list[Answered]:
    """Every log that was taken, read as its page proposes, and its page looked at."""
    from teardowns.models import Recording

    by_unit = {author.unit: author for author in authors}
    rows = list(Recording.objects.filter(unit__in=by_unit).values_list("unit", "key"))
    with ThreadPoolExecutor(AT_ONCE) as pool:
        found = list(pool.map(lambda row: read_log(made.port, by_unit[row[0]], *row), rows))
    return [each for answers in found for each in answers]


def told(files, answered, bodies, read, findings) -> None:
    for family, count in counted(files).items():
        print(f"    {family:<34}{count:>6}")
    findings.say("files sent", len(answered), len(files), len(answered) == len(files))
    print("    by way:", dict(Counter(each.way for each in answered)))
    print("    became:", dict(Counter(each.verdict for each in answered).most_common()))
    print("    bodies, by status:", by_status(bodies))
    print("    pages of logs, by status:", by_status(read))
    print("    logs became:", dict(Counter(each.verdict for each in read if each.verdict)))
    every = [*answered, *bodies, *read]
    findings.none("answers of 500 and more", [each for each in every if each.status >= 500])
    findings.none("no answer", [each for each in every if not each.status])
    findings.none("refused without a word", [each for each in answered if not each.verdict])
    findings.none("other than it must become", [each for each in answered if not each.is_right])
    slowest = max(every, key=lambda each: each.took)
    findings.say("slowest answer, s", f"{slowest.took:.1f} ({slowest.way}, {slowest.name[:40]})",
                 SLOWEST, slowest.took <= SLOWEST)


def by_status(answers):
    return dict(sorted(Counter(each.status for each in answers).items()))


def kept(made, answered, authors, findings) -> None:
    findings.say("kept", sum(each.is_kept for each in answered), "some",
                 any(each.is_kept for each in answered))
    for harm, found in differences(ledger_of(answered)).items():
        findings.none(f"of what was answered as kept: {harm}", found)
    for what, found in remains(made).items():
        findings.none(what, found)
    findings.none("pictures not made anew, or that carry more than a picture", shown_wrongly())
    sheets = [Sender(made.port, author).look(f"/bench/{author.unit}/{page}/")
              for author in authors for page in ("photos", "recordings")]
    findings.none("sheets that cannot be looked at",
                  [each for each in sheets if each.status != 200])


if __name__ == "__main__":
    sys.exit(main())
