"""One site on loopback, served as it is shipped, and how a drill says what it found."""
from __future__ import annotations

import os
import shlex
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from urllib.request import urlopen

from tests.drills.two_hosts_network import end_all
from tests.drills.two_hosts_servers import DEPLOY, PYTHON, ROOT, postgres_programs, wait_for

HERE = "127.0.0.1"
# Limits on how often are proved elsewhere (tests.bench.concurrency); here one machine is everybody.
UNLIMITED = dict.fromkeys(
    ("API_READS", "API_READS_OF_OWNER", "API_WRITES", "SEARCHES", "UPLOADS",
     "ACCOUNT_SHEETS"), "10000000") | {"ACCOUNT_BYTES": "1000000000000"}


class Site:
    """Web and worker, each a group of processes that dies as one; their logs are in the folder."""

    def __init__(self, folder: Path, database: str = "", **environment: str):
        self.folder, self.port, self.root = folder, free_port(), ROOT
        self.environment = UNLIMITED | {
            "UNDERPLATE_DATA_DIR": str(folder / "data"), "DJANGO_SETTINGS_MODULE": "core.settings",
            "PROMETHEUS_MULTIPROC_DIR": str(folder / "counts"), "SECRET_KEY": "drill-" * 12,
            # Compiled once, as on a host that was installed by the guide.
            "PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": str(folder / "compiled"),
            "LOG_LEVEL": "WARNING",
        } | ({"DATABASE_URL": database} if database else {}) | environment
        self.started: dict[str, subprocess.Popen[bytes]] = {}

    def lay_out(self) -> None:
        (self.folder / "data").mkdir(mode=0o700, exist_ok=True)
        self.manage("migrate", "-v0")
        self.manage("collectstatic", "--no-input", "-v0")
        os.environ |= self.environment
        import django

        django.setup()

    def manage(self, *arguments: str) -> str:
        return self.run("manage.py", *arguments)

    def run(self, *arguments: str) -> str:
        done = subprocess.run([PYTHON, *arguments], capture_output=True, text=True, check=False,
                              env=os.environ | self.environment, cwd=self.root)
        if done.returncode:
            raise SystemExit(f"{' '.join(arguments)[:80]}:\n{done.stdout}{done.stderr}")
        return done.stdout

    def start_web(self) -> None:
        counts = Path(self.environment["PROMETHEUS_MULTIPROC_DIR"])
        shutil.rmtree(counts, ignore_errors=True)       # as systemd does with a RuntimeDirectory
        counts.mkdir()
        self._start("web", [PYTHON, *as_shipped(f"{HERE}:{self.port}")])

    def start_worker(self, name: str = "worker") -> None:
        self._start(name, [PYTHON, "manage.py", "qcluster"])

    def _start(self, name, command):
        with (self.folder / f"{name}.log").open("ab") as log:
            self.started[name] = subprocess.Popen(
                command, stdout=log, stderr=log, cwd=self.root, start_new_session=True,
                env=os.environ | self.environment)

    def is_up(self) -> bool:
        return urlopen(f"http://{HERE}:{self.port}/health/alive", timeout=2).status == 200

    def serve(self) -> None:
        self.start_web()
        wait_for(self.is_up)

    def kill(self, name: str) -> None:
        """Without a word, as a power cut would."""
        process = self.started.pop(name)
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()

    def end(self) -> None:
        end_all(self.started)

    def log_of(self, name: str) -> str:
        path = self.folder / f"{name}.log"
        return path.read_text() if path.exists() else ""

    def print_errors_of(self, name: str) -> None:
        lines = {line for line in self.log_of(name).splitlines() if "Error" in line}
        for line in sorted(lines)[:8]:
            print(f"    log: {line[:200]}")


class Postgres:
    """A server of the drill's own, durable as shipped, which may be stopped as a crash would."""

    def __init__(self, folder: Path):
        self.data, self.port = folder / "postgres", free_port()
        self.url = f"postgres://postgres@{HERE}:{self.port}/postgres"
        self.data.mkdir()
        shutil.chown(self.data, "postgres")
        self._run("initdb", "--auth=trust", "--encoding=UTF8", "--data-checksums")
        self.start()

    def start(self) -> None:
        self._run("pg_ctl", "-w", "-l", str(self.data / "log"), "-o",
                  f"-p {self.port} -k {self.data} -c listen_addresses={HERE}", "start")

    def stop(self, mode: str = "fast") -> None:
        self._run("pg_ctl", "-m", mode, "stop")

    def _run(self, program, *arguments):
        subprocess.run(["runuser", "-u", "postgres", "--", postgres_programs() / program, "-D",
                        self.data, *arguments], check=True, cwd="/", stdout=subprocess.DEVNULL)


@contextmanager
def site(postgres: bool = False, units: int = 0, **environment: str) -> Iterator[Site]:
    """The site laid out, with so many invented public units, not serving yet; gone afterwards."""
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))      # what was started ends with us
    folder = Path(tempfile.mkdtemp(prefix="drill-"))
    folder.chmod(0o755)
    server = Postgres(folder) if postgres else None
    made = Site(folder, server.url if server else "", **environment)
    made.postgres = server                              # type: ignore[attr-defined]
    try:
        made.lay_out()
        if units:
            made.run("-m", "tests.bench.many_units", str(units))
        yield made
    finally:
        made.end()
        if server:
            from django.db import connections

            connections.close_all()
            with suppress(subprocess.CalledProcessError):
                server.stop("immediate")
        shutil.rmtree(folder, ignore_errors=True)


def as_shipped(address: str) -> list[str]:
    """What the unit for systemd runs, at this address."""
    text = (DEPLOY / "underplate-web.service").read_text().replace("\\\n", " ")
    line = next(each for each in text.splitlines() if each.startswith("ExecStart="))
    words = shlex.split(line)[1:]
    words[words.index("--bind") + 1] = address
    return words


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind((HERE, 0))
        return probe.getsockname()[1]


class Findings:
    """Figures as they are found, each beside what is wanted of it."""

    def __init__(self, *about: object):
        self.missed: list[str] = []
        print(*about, f"(load of the machine {os.getloadavg()[0]:.1f})", flush=True)

    def say(self, what: str, figure: object, wanted: object = "", good: bool = True) -> None:
        told = f"   (wanted {wanted})" if wanted != "" else ""
        print(f"{what:<58} {figure}{told}{'' if good else '   MISSED'}", flush=True)
        if not good:
            self.missed.append(what)

    def none(self, what: str, found: object) -> None:
        """Of this there must be none; what there is is shown."""
        figure = len(found) if hasattr(found, "__len__") else found
        self.say(what, figure, 0, not figure)
        for each in list(found)[:5] if hasattr(found, "__len__") else ():
            print(f"    {str(each)[:300]}")

    def exit(self) -> int:
        print(f"{len(self.missed)} missed" if self.missed else "held",
              f"(load of the machine {os.getloadavg()[0]:.1f})")
        return int(bool(self.missed))


def seconds_since(begun: float) -> str:
    return f"{time.monotonic() - begun:.1f}"


def needs_root() -> None:
    if os.geteuid():
        print("This drill needs root, for a PostgreSQL or a file system of its own.")
        sys.exit(2)
