"""Three network namespaces joined by a bridge: the front, and two hosts that know nothing else."""
from __future__ import annotations

import os
import signal
import subprocess
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

FRONT, HOSTS = "underplate-front", ("underplate-a", "underplate-b")
ADDRESS = {FRONT: "10.77.0.1", HOSTS[0]: "10.77.0.2", HOSTS[1]: "10.77.0.3"}


def ip(*arguments: str) -> None:
    subprocess.run(["ip", *arguments], check=True)


def join() -> None:
    for name in ADDRESS:
        ip("netns", "add", name)
        ip("-n", name, "link", "set", "lo", "up")
    ip("-n", FRONT, "link", "add", "bridge", "type", "bridge")
    ip("-n", FRONT, "addr", "add", f"{ADDRESS[FRONT]}/24", "dev", "bridge")
    ip("-n", FRONT, "link", "set", "bridge", "up")
    for number, name in enumerate(HOSTS):
        ip("-n", FRONT, "link", "add", f"to{number}", "type", "veth", "peer", "name", "wire",
           "netns", name)
        ip("-n", FRONT, "link", "set", f"to{number}", "master", "bridge", "up")
        ip("-n", name, "addr", "add", f"{ADDRESS[name]}/24", "dev", "wire")
        ip("-n", name, "link", "set", "wire", "up")


def part() -> None:
    """Also what a run that was broken off left behind."""
    for name in ADDRESS:
        subprocess.run(["ip", "netns", "del", name], check=False, stderr=subprocess.DEVNULL)


@dataclass
class Running:
    """Processes of one drill, each in a group of its own, so that it dies with its children."""

    logs: Path
    started: dict[str, subprocess.Popen[bytes]] = field(default_factory=dict)

    def start(self, name: str, host: str, command: Sequence[str],
              environment: Mapping[str, str] | None = None, cwd: Path | None = None) -> None:
        with (self.logs / f"{name}.log").open("ab") as log:
            self.started[name] = subprocess.Popen(
                ["ip", "netns", "exec", host, *command], stdout=log, stderr=log, cwd=cwd,
                env=os.environ | dict(environment or {}), start_new_session=True)

    def kill(self, *names: str) -> None:
        """Without a word, as a power cut would."""
        for name in names:
            process = self.started.pop(name)
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()

    def end(self) -> None:
        end_all(self.started)


def end_all(started: dict[str, subprocess.Popen[bytes]]) -> None:
    """The last one first, each with all of its group; who does not go is made to."""
    for process in reversed(started.values()):
        process.terminate()
    for process in started.values():
        with suppress(subprocess.TimeoutExpired):
            process.wait(15)
        with suppress(ProcessLookupError):
            os.killpg(process.pid, signal.SIGKILL)
