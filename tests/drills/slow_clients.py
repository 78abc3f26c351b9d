"""Clients that send a byte a second, stop half-way or never end: others are served as before.

    python -m tests.drills.slow_clients [--clients 50] [--seconds 30] [--nginx]

Of the clients a third send their headers slowly, a third a body, a third stop in the middle of one.
Without a proxy before it gunicorn holds a thread for each body; the deployed shape has nginx, which
takes bodies in first: --nginx puts the example of fixtures/deploy before the site (needs root).
"""
from __future__ import annotations

import argparse
import os
import re
import socket
import subprocess
import sys
import threading
import time
from contextlib import suppress

from tests.drills.load import share
from tests.drills.one_host import HERE, Findings, free_port, needs_root, site
from tests.drills.two_hosts_servers import DEPLOY, wait_for
from tests.drills.writing import ask

PAGES = ("/", "/units/", "/method/")
GROWTH = 20.0           # MB that the web processes may grow by


def slow(port: int, kind: int, enough: threading.Event) -> None:
    head = f"POST /sign-in/ HTTP/1.1\r\nHost: {HERE}\r\nContent-Type: text/plain\r\n".encode()
    with suppress(OSError), socket.create_connection((HERE, port), 10) as line:
        if kind:
            line.sendall(head + b"Content-Length: 100000\r\n\r\n")
        else:
            line.sendall(head)
        while not enough.wait(1):
            if kind < 2:
                line.sendall(b"x" if kind else b"X")


def read(port: int, seconds: float) -> tuple[list[float], list[str]]:
    took, wrong, until = [], [], time.monotonic() + seconds
    while time.monotonic() < until:
        for page in PAGES:
            begun = time.monotonic()
            try:
                status = ask(port, "GET", page, seconds=20)[0]
            except OSError as error:
                status = type(error).__name__
            took.append(time.monotonic() - begun)
            if status != 200:
                wrong.append(f"{page} {status} after {took[-1]:.1f} s")
        time.sleep(0.1)
    return took, wrong


def memory_of(group: int) -> float:
    """MB of all processes of a group."""
    found = subprocess.run(["ps", "-o", "rss=", "-g", str(group)], capture_output=True, text=True,
                           check=False).stdout.split()
    return sum(map(int, found)) / 1024


def start_nginx(made) -> int:
    """The example, without HTTPS and with this site behind it."""
    port, folder = free_port(), made.folder / "nginx"
    folder.mkdir()
    (folder / "nginx.conf").write_text(
        f"user root; daemon off; pid {folder}/pid; error_log {folder}/error.log;\n"
        "worker_processes 1; events {}\nhttp { access_log off;\n"
        f"client_body_temp_path {folder}/body; proxy_temp_path {folder}/proxied;\n"
        f"server {{ listen {HERE}:{port}; {limits()} location / {{\n"
        f"proxy_pass http://{HERE}:{made.port}; proxy_set_header Host $host; }} }} }}\n")
    made.started["nginx"] = subprocess.Popen(["nginx", "-c", folder / "nginx.conf"],
                                             start_new_session=True)
    wait_for(lambda: ask(port, "GET", "/health/alive")[0] == 200)
    return port


def limits() -> str:
    """What the example says of slow clients and large bodies, for the whole site."""
    names = ("client_header_timeout", "client_body_timeout", "send_timeout",
             "client_max_body_size")
    text = (DEPLOY / "nginx.conf").read_text()
    return " ".join(re.search(rf"{name} [^;]*;", text)[0] for name in names)


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    asked.add_argument("--clients", type=int, default=50)
    asked.add_argument("--seconds", type=float, default=30)
    asked.add_argument("--nginx", action="store_true")
    given = asked.parse_args()
    if given.nginx:
        needs_root()
    findings = Findings(given.clients, "slow clients,", "nginx before" if given.nginx else "bare")
    with site() as made:
        made.serve()
        port = start_nginx(made) if given.nginx else made.port
        group = made.started["web"].pid
        read(port, 5)
        quiet, _ = read(port, given.seconds)
        before, enough = memory_of(os.getpgid(group)), threading.Event()
        clients = [threading.Thread(target=slow, args=[port, number % 3, enough])
                   for number in range(given.clients)]
        for client in clients:
            client.start()
        time.sleep(3)
        meanwhile, wrong = read(port, given.seconds)
        grown = memory_of(os.getpgid(group)) - before
        enough.set()
        for client in clients:
            client.join()
        was, became = share(quiet, 0.95), share(meanwhile, 0.95)
        findings.say("reads p95 before, meanwhile, ms", f"{1000 * was:.0f}, {1000 * became:.0f}",
                     "2 ×", became <= 2 * was)
        findings.none("reads that were not answered with 200", wrong)
        findings.say("memory of the web processes grew by, MB", f"{grown:.0f}", f"{GROWTH:.0f}",
                     grown <= GROWTH)
        begun = time.monotonic()
        wait_for(lambda: ask(port, "GET", "/")[0] == 200)
        findings.say("s to a page when they are gone", f"{time.monotonic() - begun:.1f}")
    return findings.exit()


if __name__ == "__main__":
    sys.exit(main())
