"""What stands in front of a real server of the S3 protocol, and does to it what networks do."""
from __future__ import annotations

import hashlib
import http.client
import shutil
import subprocess
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

from tests.drills.one_host import HERE, free_port
from tests.drills.two_hosts_servers import PYTHON, wait_for

BUCKET = "evidence"
SLOW, HUNG = 1.5, 45.0                          # s
# Fault → the methods that it strikes. What is stored wrongly is answered as if it were whole.
FAULTS = {
    "slow": {"GET", "HEAD", "PUT"}, "hung": {"GET", "HEAD", "PUT"}, "refusing": {"GET", "HEAD",
                                                                                "PUT"},
    "stored by half": {"PUT"}, "stored with a wrong byte": {"PUT"}, "stored, answer cut": {"PUT"},
    "cut while reading": {"GET"}, "read by half": {"GET"}, "read with a wrong byte": {"GET"},
}
# Not every server of the protocol knows these: what is broken must be noticed without them.
CHECKSUMS = ("x-amz-checksum", "x-amz-sdk-checksum", "content-md5")


class StandIn(ThreadingHTTPServer):
    """Passes on what it is asked; `fault` says what it does wrong meanwhile."""

    daemon_threads = True

    def __init__(self, behind: int):
        super().__init__((HERE, free_port()), Passing)
        self.behind, self.fault = behind, ""
        self.sent: dict[str, str] = {}          # path → SHA-256 of what was last sent there
        self.struck = 0
        threading.Thread(target=self.serve_forever, daemon=True).start()

    def strikes(self, method: str) -> str:
        return self.fault if method in FAULTS.get(self.fault, ()) else ""

    def handle_error(self, request, client_address) -> None:
        """Who asked has gone: nothing to say."""


class Passing(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server: StandIn

    def pass_on(self) -> None:
        body = self.rfile.read(int(self.headers.get("Content-Length", 0)))
        fault = self.server.strikes(self.command)
        self.server.struck += bool(fault)
        if self.command == "PUT":
            self.server.sent[self.path] = hashlib.sha256(body).hexdigest()
        if fault in ("slow", "hung"):
            time.sleep(SLOW if fault == "slow" else HUNG)
        if fault == "hung":
            return self.cut()
        if fault == "refusing":
            return self.answer(503, {}, b"<Error><Code>SlowDown</Code></Error>")
        body = {"stored by half": body[:len(body) // 2],
                "stored with a wrong byte": turned(body)}.get(fault, body)
        status, headers, found = self.asked_behind(body)
        if fault == "stored, answer cut":
            return self.cut()
        if fault == "read with a wrong byte":
            found = turned(found)
        if fault == "read by half":
            found = found[:len(found) // 2]
            headers["Content-Length"] = str(len(found))
        if fault == "cut while reading":
            self.answer(status, headers, found[:len(found) // 2])
            return self.cut()
        return self.answer(status, headers, found)

    do_GET = do_HEAD = do_PUT = do_POST = do_DELETE = pass_on

    def asked_behind(self, body):
        passed = {name: value for name, value in self.headers.items()
                  if not name.lower().startswith(CHECKSUMS)
                  and name.lower() not in ("expect", "content-length")}
        connection = http.client.HTTPConnection(HERE, self.server.behind, timeout=30)
        try:
            connection.request(self.command, self.path, body, passed)
            found = connection.getresponse()
            return found.status, dict(found.getheaders()), found.read()
        finally:
            connection.close()

    def answer(self, status, headers, body):
        self.send_response_only(status)
        for name, value in ({"Content-Length": str(len(body))} | headers).items():
            if name.lower() not in ("connection", "transfer-encoding"):
                self.send_header(name, value)
        self.end_headers()
        self.wfile.write(body if self.command != "HEAD" else b"")

    def cut(self):
        self.close_connection = True

    def log_message(self, format, *args) -> None:
        """Lines of the log are not for this."""


def turned(body: bytes) -> bytes:
    """With one byte in its middle that is another one."""
    at = len(body) // 2
    return body[:at] + bytes([body[at] ^ 0xFF]) + body[at + 1:] if body else body


@contextmanager
def stand_in() -> Iterator[tuple[StandIn, Any]]:
    """It, and a client of the real server, with an empty bucket; both end."""
    import boto3

    port = free_port()
    program = shutil.which("moto_server", path=str(Path(PYTHON).parent)) or "moto_server"
    process = subprocess.Popen([program, "-H", HERE, "-p", str(port)],
                               stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    made = None
    client = boto3.client("s3", endpoint_url=f"http://{HERE}:{port}", region_name="us-east-1",
                          aws_access_key_id="drill", aws_secret_access_key="drill")
    try:
        wait_for(lambda: client.create_bucket(Bucket=BUCKET))
        made = StandIn(port)
        yield made, client
    finally:
        if made:
            made.shutdown()
            made.server_close()
        process.terminate()
        process.wait(10)
