"""One key again and again: the same words, other words, somebody else; over HTTP, many at once.

    python -m tests.drills.replays [--count 10000] [--threads 12] [--postgres]

See also `python -m tests.bench.concurrency 10000`, without HTTP. --postgres needs root.
"""
from __future__ import annotations

import argparse
import json
import sys
import time
import uuid
from concurrent.futures import ThreadPoolExecutor

from tests.drills.one_host import Findings, needs_root, site
from tests.drills.writing import ask, headers_of, people

EACH = 100              # replays of one key


def sent(port, author, key, title) -> tuple[int, bytes]:
    body = json.dumps({"title": title, "kind": "plug_in"}).encode()
    while True:
        status, said, answer = ask(port, "POST", "/api/v1/bench", body, headers_of(author, key=key))
        if status != 503:
            return status, answer
        time.sleep(int(said["Retry-After"]))


def replayed(port, authors, count, pool, findings) -> None:
    from teardowns.models import Unit

    one, other = authors
    keys = [(str(uuid.uuid4()), f"Replayed {uuid.uuid4()}") for _ in range(max(1, count // EACH))]
    acts = [(author, key, title + words, kind) for key, title in keys for _ in range(EACH // 10)
            for kind, author, words in [("same", one, "")] * 8 + [
                ("other words", one, ", otherwise"), ("somebody else", other, "")]]
    for key, title in keys:
        sent(port, one, key, title)
    answers = list(pool.map(lambda act: sent(port, *act[:3]), acts))
    said: dict[tuple[str, str], set] = {}
    for (_, key, _, kind), answer in zip(acts, answers, strict=True):
        said.setdefault((kind, key), set()).add(answer)
    findings.say("replays of so many keys", f"{len(acts)}, {len(keys)}")
    findings.none("keys whose replays were answered differently", [
        key for (kind, key), found in said.items() if kind != "other words" and len(found) > 1])
    findings.none("other words under a used key not refused", [
        found for (kind, _), found in said.items() if kind == "other words"
        and {status for status, _ in found} != {422}])
    for who, author in (("whose key it is", one), ("somebody else", other)):
        made = Unit.objects.filter(contributor__username=author.name, title__in=[
            title for _, title in keys]).count()
        findings.say(f"sheets of {who}", made, len(keys), made == len(keys))


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--count", type=int, default=10_000)
    asked.add_argument("--threads", type=int, default=12)
    asked.add_argument("--postgres", action="store_true")
    given = asked.parse_args()
    if given.postgres:
        needs_root()
    findings = Findings("Replays on", "PostgreSQL" if given.postgres else "SQLite")
    with site(given.postgres) as made, ThreadPoolExecutor(given.threads) as pool:
        authors = people(2)
        made.serve()
        replayed(made.port, authors, given.count, pool, findings)
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
