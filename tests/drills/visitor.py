"""Somebody at a browser without a script: cookies, forms, one address in the network."""
from __future__ import annotations

import http.client
from dataclasses import dataclass, field
from http.cookies import SimpleCookie
from urllib.parse import urlencode, urlsplit

from tests.drills.one_host import HERE

TOKEN = "a" * 32                # cookie and field alike: what a page would have given


@dataclass
class Visitor:
    port: int
    address: str = HERE         # limits count by it: anything in 127.0.0.0/8
    cookies: dict[str, str] = field(default_factory=lambda: {"csrf": TOKEN})

    def get(self, path: str) -> tuple[int, dict[str, str], bytes]:
        return self.ask("GET", path)

    def post(self, path: str, **fields: str) -> tuple[int, dict[str, str], bytes]:
        body = urlencode({"csrfmiddlewaretoken": TOKEN} | fields).encode()
        return self.ask("POST", path, body, {"Content-Type": "application/x-www-form-urlencoded"})

    def ask(self, method, path, body=None, headers=None):
        line = http.client.HTTPConnection(HERE, self.port, timeout=40,
                                          source_address=(self.address, 0))
        said = {"Cookie": "; ".join(f"{name}={value}" for name, value in self.cookies.items())}
        try:
            line.request(method, urlsplit(path)._replace(scheme="", netloc="").geturl(), body,
                         said | (headers or {}))
            answer = line.getresponse()
            for header in answer.headers.get_all("Set-Cookie", ()):
                for name, morsel in SimpleCookie(header).items():
                    if name != "csrf":
                        self.cookies[name] = morsel.value
            return answer.status, dict(answer.getheaders()), answer.read()
        finally:
            line.close()
