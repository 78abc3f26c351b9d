"""How much memory the processes below one take at most, seen by a process beside them.

`python -m tests.drills.memory PID` watches until its standard input ends, then prints the largest
resident memory of a child that decoded a picture and of a server, in MB.
"""
from __future__ import annotations

import json
import select
import subprocess
import sys
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from tests.drills.two_hosts_servers import PYTHON, ROOT

EVERY = 0.005           # s; a child that decodes lives for a tenth of a second at least
DECODES = b"teardowns.imaging.child"


class Watched:
    """`child` and `web`: the largest resident memory of a decoder and of a server, in MB."""

    def __init__(self, master: int):
        self.master, self.child, self.web = master, 0, 0

    def __enter__(self) -> Watched:
        self._watcher = subprocess.Popen(
            [PYTHON, "-m", "tests.drills.memory", str(self.master)], cwd=ROOT,
            stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        return self

    def __exit__(self, *error: object) -> None:
        said, _ = self._watcher.communicate()
        self.child, self.web = json.loads(said)


def watch(master: int) -> tuple[int, int]:
    child_most = web_most = 0
    while not select.select([sys.stdin], [], [], EVERY)[0]:
        for server in below(master):
            web_most = max(web_most, most_of(server))
            for child in below(server):
                with suppress(OSError):
                    if DECODES in Path(f"/proc/{child}/cmdline").read_bytes():
                        child_most = max(child_most, most_of(child))
    return child_most, web_most


def below(process: int) -> Iterator[int]:
    """The children of a process: those of each of its threads."""
    with suppress(OSError):
        for thread in Path(f"/proc/{process}/task").iterdir():
            with suppress(OSError):
                yield from map(int, (thread / "children").read_text().split())


def most_of(process: int) -> int:
    with suppress(OSError, StopIteration, ValueError):
        text = Path(f"/proc/{process}/status").read_text()
        line = next(each for each in text.splitlines() if each.startswith("VmHWM"))
        return int(line.split()[1]) // 1024
    return 0


if __name__ == "__main__":
    print(json.dumps(watch(int(sys.argv[1]))))
