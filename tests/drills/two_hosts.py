"""Two hosts, one database, one object store: kill either, and nothing that was answered is lost.

    sudo python -m tests.drills.two_hosts

On this machine alone, in three network namespaces: nginx, PostgreSQL and an object store in front,
web and worker on each of two hosts behind. While people write, host a dies and comes back, then
host b; a backup is made meanwhile, and restored elsewhere. It needs root, nginx, PostgreSQL's
programs and tests/requirements.txt; it takes five to ten minutes and leaves nothing behind, with
--keep its logs.
"""
from __future__ import annotations

import base64
import http.client
import json
import os
import re
import shutil
import socket
import ssl
import subprocess
import sys
import tempfile
import threading
import time
import uuid
from dataclasses import dataclass, field
from pathlib import Path
from urllib.request import Request, urlopen

import psycopg

from tests.drills import two_hosts_network as network
from tests.drills import two_hosts_servers as servers
from tests.drills.two_hosts_network import ADDRESS, FRONT, HOSTS, Running
from tests.drills.two_hosts_servers import NAME, ROOT, ask, manage, wait_for

WRITERS, SECONDS, PAUSE = 4, 12, 0.25       # the people, s between two deaths, s between two writes
JOBS = 60
A, B = HOSTS
BROKEN = {500, 502, 503, 504, 429}


@dataclass
class Ledger:
    """What was answered, and what it took."""

    kept: dict[int, str] = field(default_factory=dict)          # number of a unit → its title
    again: list[str] = field(default_factory=list)              # why something was sent once more
    waits: list[float] = field(default_factory=list)            # s, from first sending to answer
    refused: list[str] = field(default_factory=list)
    lock: threading.Lock = field(default_factory=threading.Lock)


class Site:
    """The site as people reach it: through nginx, with its certificate checked."""

    def __init__(self, certificate: Path):
        self.context = ssl.create_default_context(cafile=str(certificate))
        self.context.check_hostname = False             # it is reached by its number here

    def ask(self, method, path, body=None, headers=None, seconds=20):
        connection = http.client.HTTPSConnection(ADDRESS[FRONT], 443, timeout=seconds,
                                                 context=self.context)
        try:
            connection.request(method, path, body, {"Host": NAME} | (headers or {}))
            answer = connection.getresponse()
            return answer.status, dict(answer.getheaders()), answer.read()
        finally:
            connection.close()

    def send_once(self, path, said, token, ledger):
        """The answer; the same key goes again for as long as nothing was answered."""
        headers = {"Authorization": f"Bearer {token}", "Content-Type": "application/json",
                   "Idempotency-Key": str(uuid.uuid4())}
        while True:
            try:
                status, _, body = self.ask("POST", path, json.dumps(said), headers)
            except (OSError, http.client.HTTPException) as error:
                status, body = type(error).__name__, b""
            if status not in BROKEN and isinstance(status, int):
                return status, body
            ledger.again.append(str(status))
            time.sleep(0.5)


def ready(host):
    return urlopen(f"http://{ADDRESS[host]}:8001/health/ready", timeout=10).status == 200


def write(site, token, who, ledger, enough):
    number = 0
    while not enough.is_set():
        title, begun = f"Drill {who}-{number}", time.monotonic()
        status, body = site.send_once("/api/v1/bench", {"title": title, "kind": "plug_in"}, token,
                                      ledger)
        with ledger.lock:
            if status == 201:
                ledger.kept[json.loads(body)["unit"]] = title
                ledger.waits.append(time.monotonic() - begun)
            else:
                ledger.refused.append(f"{status} {body[:200]!r}")
        number += 1
        time.sleep(PAUSE)


def say(what: str, figure: object, target: object = "") -> None:
    print(f"{what:<58} {figure}" + (f"   (wanted {target})" if target != "" else ""), flush=True)


def everything(folder: Path) -> bool:
    running = Running(folder / "logs")
    running.logs.mkdir()
    for host in HOSTS:
        (folder / host).mkdir(mode=0o700)
    try:
        return drill(running, folder)
    finally:
        running.end()


def drill(running: Running, folder: Path) -> bool:
    servers.start_postgres(running, folder)
    servers.start_objects(running)
    environment = servers.environment_of(A, folder)
    servers.lay_out(environment)
    manage(environment, "collectstatic", "--no-input")
    site = Site(servers.start_nginx(running, folder))
    for host in HOSTS:
        servers.start_host(running, host, folder)
    for host in HOSTS:
        wait_for(lambda host=host: ready(host))
    wait_for(lambda: site.ask("GET", "/")[0] == 200)
    token = manage(environment, "shell", "--no-imports", "-c", TOKEN).split()[-1]
    checks = [proxied(site), accounts(), examined(environment, "at the start")]
    checks += [killed(running, folder, site, token), counted(), restored(folder)]
    checks.append(examined(environment, "at the end"))
    return all(checks)


# A person with a unit and its photo, whose original and pictures lie in the bucket from now on.
TOKEN = """
import pathlib, tempfile, uuid
from core.accounts.models import Role
from core.accounts.services.api_tokens import issue_token
from teardowns.models import Unit
from teardowns.services.receive_photo import receive_photo
from tests.cast import person
from tests.photographs import photograph
owner = person("drill", Role.CONTRIBUTOR)
unit = Unit.objects.create(uid=uuid.uuid4(), title="With a photo", contributor=owner)
with tempfile.TemporaryDirectory() as folder:
    path = photograph(pathlib.Path(folder))
    receive_photo(contributor=owner, unit_pk=unit.pk, path=path, name="photo.jpg")
print(issue_token(owner=owner, name="drill", scopes=("read", "contribute"), days=1)[1])
"""
QUEUE = f"""
from django_q.tasks import async_task
for number in range({JOBS}):
    async_task("time.sleep", 0.7, task_name=f"drill-{{number}}")
"""


def proxied(site: Site) -> bool:
    """What nginx itself has to do."""
    status, headers, page = site.ask("GET", "/")
    hashed = re.search(rb"/static/[^\"]+\.[0-9a-f]{12}\.css", page)[0].decode()
    forever = site.ask("GET", hashed)[1].get("Cache-Control", "")
    sent = two_lengths(site)
    hidden = site.ask("GET", "/metrics")[0]
    large = site.ask("POST", "/sign-in/", b"x" * 3_200_000)[0]
    say("page, through nginx", status, 200)
    say("HTTPS is told to last", "Strict-Transport-Security" in headers, True)
    say("static file under a hashed name", forever, "immutable")
    say("a request with two lengths", sent, 400)
    say("the metrics, through nginx", hidden, 404)
    say("3.2 MB sent to a form", large, 413)
    return (status == 200 and "immutable" in forever and sent == 400 and hidden == 404
            and large == 413)


def two_lengths(site: Site) -> int:
    text = (f"POST /sign-in/ HTTP/1.1\r\nHost: {NAME}\r\nContent-Length: 5\r\n"
            "Transfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET /x HTTP/1.1\r\n\r\n")
    with (socket.create_connection((ADDRESS[FRONT], 443), 10) as plain,
          site.context.wrap_socket(plain, server_hostname=NAME) as line):
        line.sendall(text.encode())
        return int(line.recv(1000).split()[1])


def accounts() -> bool:
    """The account of web and workers changes neither the schema nor entries of the log."""
    tried = ("ALTER TABLE teardowns_unit ADD COLUMN x int", "DROP TABLE teardowns_unit",
             "CREATE TABLE x (y int)", "UPDATE audit_entry SET reason = 'x'",
             "DELETE FROM audit_entry", "TRUNCATE audit_entry",
             "DROP TRIGGER audit_entry_kept ON audit_entry", "DELETE FROM django_migrations")
    let = []
    for sql in tried:
        try:
            ask(sql, account="underplate_web")
            let.append(sql)
        except psycopg.errors.InsufficientPrivilege:
            pass
    say(f"of {len(tried)} changes that the account may not make, made", len(let), 0)
    return not let


def examined(environment, when) -> bool:
    found = json.loads(manage(environment, "doctor", "--json", check=False))
    faults = [each["said"] for each in found if each["level"] == "fault"]
    say(f"doctor {when}: findings, faults", f"{len(found)}, {len(faults)}", "no fault")
    for each in found:
        if each["level"] in ("fault", "warning"):
            print(f"    {each['level']} {each['subject']}: {each['said']}")
    return not faults


def killed(running, folder, site, token) -> bool:
    """People write; each host dies once without a word, web and worker; a backup is made."""
    ledger, enough = Ledger(), threading.Event()
    beside = [threading.Thread(target=write, args=[site, token, who, ledger, enough])
              for who in range(WRITERS)] + [threading.Thread(target=back_up, args=[folder])]
    manage(servers.environment_of(A, folder), "shell", "--no-imports", "-c", QUEUE)
    for thread in beside:
        thread.start()
    for host in HOSTS:
        time.sleep(SECONDS)
        running.kill(f"web {host}", f"worker {host}")
        time.sleep(SECONDS)
        servers.start_host(running, host, folder)
        wait_for(lambda host=host: ready(host))
    time.sleep(SECONDS)
    enough.set()
    for thread in beside:
        thread.join()
    return settled(ledger)


def back_up(folder) -> None:
    environment = servers.environment_of(B, folder)
    begun = time.monotonic()
    manage(environment | {"DATABASE_URL": servers.address("underplate_backup")}, "backup",
           str(folder / "backups"))
    say("backup beside the writing, s", f"{time.monotonic() - begun:.1f}")


def settled(ledger) -> bool:
    """Every answer held against the tables."""
    titles = ask("SELECT title, count(*) FROM teardowns_unit WHERE title LIKE 'Drill %%'"
                 " GROUP BY title")
    there = {pk for pk, in ask("SELECT id FROM teardowns_unit")}
    entries = ask("SELECT unit, count(*) FROM audit_entry WHERE action = 'unit_started'"
                  " GROUP BY unit HAVING count(*) <> 1")
    lost = [pk for pk in ledger.kept if pk not in there]
    doubled = [title for title, count in titles if count > 1]
    unanswered = len(titles) - len(ledger.kept)
    say("answered writes", len(ledger.kept))
    say("sent once more, by reason", {why: ledger.again.count(why)
                                      for why in sorted(set(ledger.again))})
    say("longest from first sending to answer, s", f"{max(ledger.waits, default=0):.1f}")
    say("refused", len(ledger.refused), 0)
    for each in ledger.refused[:3]:
        print("   ", each)
    say("lost, doubled, stored without an answer",
        f"{len(lost)}, {len(doubled)}, {unanswered}", "0, 0, 0")
    say("units whose start stands in the log other than once", len(entries), 0)
    return bool(ledger.kept) and not (lost or doubled or unanswered or entries or ledger.refused)


def counted() -> bool:
    """Jobs of both workers, also of the one that died with a job in its hand."""
    def done():
        return ask("SELECT count(DISTINCT name), count(*) FROM django_q_task WHERE success"
                   " AND name LIKE 'drill-%%'")[0]

    begun = time.monotonic()
    wait_for(lambda: done()[0] == JOBS, 300)
    say("jobs done, of", f"{done()[0]} of {JOBS}", JOBS)
    say("the last one after the writing, s", f"{time.monotonic() - begun:.0f}",
        "30 at most: a dead worker's is taken up again after 20")
    figures = {host: figure(host) for host in HOSTS}
    say("requests that each host has counted since it came back", figures)
    return done()[0] == JOBS and all(figures.values())


def figure(host) -> float:
    code = base64.b64encode(b"metrics:drill").decode()
    asked = Request(f"http://{ADDRESS[host]}:8001/metrics", headers={
        "Authorization": f"Basic {code}"})
    lines = urlopen(asked).read().decode().splitlines()
    return sum(float(line.split()[-1]) for line in lines
               if line.startswith("underplate_requests_total"))


def restored(folder) -> bool:
    """Elsewhere: another database, another bucket, by an account that owns them."""
    ask("CREATE DATABASE restored OWNER underplate_owner", database="postgres")
    ask("GRANT ALL ON SCHEMA public TO underplate_owner", database="restored")
    environment = servers.environment_of(A, folder) | {
        "DATABASE_URL": servers.address("underplate_owner", "restored"), "S3_BUCKET": "restored",
        "UNDERPLATE_DATA_DIR": str(folder / "restored")}
    begun = time.monotonic()
    manage(environment, "check_backup", str(folder / "backups"))
    said = manage(environment, "restore", str(folder / "backups"))
    say("restored elsewhere, s", f"{time.monotonic() - begun:.1f}")
    print("   ", said.splitlines()[0])
    missing = manage(environment, "sweep_files")
    say("files that rows name and that are missing there", missing.split()[-2], 0)
    return "each as it was backed up" in said and " 0 missing" in missing


def main() -> int:
    if os.geteuid() or not shutil.which("nginx"):
        print("This drill needs root and nginx: apt-get install nginx-light")
        return 2
    if "--inside" in sys.argv:
        whole = everything(Path(sys.argv[-1]))
        print("nothing was lost" if whole else "SOMETHING WAS LOST OR WRONG: see above")
        return 0 if whole else 1
    network.part()
    folder = Path(tempfile.mkdtemp(prefix="two-hosts-"))
    folder.chmod(0o755)
    try:
        network.join()
        return subprocess.run(["ip", "netns", "exec", FRONT, sys.executable, "-m",
                               "tests.drills.two_hosts", "--inside", str(folder)], cwd=ROOT,
                              timeout=1200, check=False).returncode
    finally:
        network.part()
        if "--keep" in sys.argv:
            print(f"Logs are in {folder}/logs.")
        else:
            shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    sys.exit(main())
