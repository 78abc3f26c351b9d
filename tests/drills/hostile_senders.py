"""The ways into the site, as a browser, its script and a program take them."""
from __future__ import annotations

import html
import http.client
import json
import re
import time
import uuid
from html.parser import HTMLParser
from urllib.parse import quote, urlencode

from tests.drills.hostile_answers import Answered, verdict_of
from tests.drills.writing import Author, ask, headers_of
from tests.hostile.bodies import bodies
from tests.hostile.building import ACCEPTED
from tests.hostile.corpus import PHOTOS, Sent

WAYS = ("API", "API, in a form", "page", "blocks")
BLOCK, PATIENCE = 1 << 20, 90.0         # bytes; s until a client gives up
KIND = "thermal"                        # what every hostile log says that it is
TOKEN = "a" * 32                        # cookie and form agree: a browser of one's own
FORM = "application/x-www-form-urlencoded"


class Sender:
    def __init__(self, port: int, author: Author):
        self.port, self.author = port, author
        self.cookies = {"Cookie": f"session={author.session}; csrf={TOKEN}", "X-CSRFToken": TOKEN}

    def send(self, number: int, files: list[Sent]) -> list[Answered]:
        way = WAYS[number % len(WAYS)]
        if way == "page":
            return self.by_page(files)
        act = {"API": self.by_api, "API, in a form": self.by_form, "blocks": self.in_blocks}[way]
        return [act(file) for file in files]

    def look(self, path: str) -> Answered:
        status, _, took = self._ask("GET", path, None, self.cookies)
        return Answered(path, "page", status, took)

    def by_api(self, file: Sent) -> Answered:
        name = file.name if file.name and "\0" not in file.name and len(file.name) < 256 else "x"
        asked = {"name": name} | ({} if file.kind == PHOTOS else {"kind": KIND})
        path = f"/api/v1/bench/{self.author.unit}/{file.kind}?{urlencode(asked)}"
        answer = self._ask("POST", path, file.data, headers_of(self.author,
                                                               "application/octet-stream"))
        return self._of_api(file, "API", answer)

    def by_form(self, file: Sent) -> Answered:
        asked = "" if file.kind == PHOTOS else f"?kind={KIND}"
        body, kind = multipart([("file", file)], {})
        answer = self._ask("POST", f"/api/v1/bench/{self.author.unit}/{file.kind}{asked}", body,
                           headers_of(self.author, kind))
        return self._of_api(file, "API, in a form", answer)

    def _of_api(self, file, way, answer):
        status, body, took = answer
        said = parsed(body)
        if status == 201:
            is_same = said.get("sha256") == file.sha256
            return self._answered(file, way, status, took, ACCEPTED if is_same else "other content",
                                  said.get("key", ""))
        told = "; ".join(str(each.get("detail", "")) for each in said.get("errors", ())) \
            or said.get("detail", "")
        return self._answered(file, way, status, took, told=told)

    def in_blocks(self, file: Sent) -> Answered:
        start = f"/bench/{self.author.unit}/{file.kind}/uploads/"
        about = {"name": file.name, "size": len(file.data), "sha256": file.sha256}
        about |= {} if file.kind == PHOTOS else {"kind": KIND, "instrument": "", "port": ""}
        kind = self.cookies | {"Content-Type": "application/json"}
        status, body, took = self._ask("POST", start, json.dumps(about).encode(), kind)
        said, offset = parsed(body), 0
        upload = said.get("upload")
        while upload and offset < len(file.data) and status in (201, 204):
            status, body, more = self._ask(
                "PUT", f"{start}{upload}/", file.data[offset:offset + BLOCK], self.cookies | {
                    "Content-Type": "application/octet-stream", "Upload-Offset": str(offset)})
            took, offset, said = max(took, more), offset + BLOCK, parsed(body)
        if "kept" in said:
            return self._answered(file, "blocks", status, took, ACCEPTED,
                                  said["kept"].rstrip("/").rpartition("/")[2])
        return self._answered(file, "blocks", status, took, told=said.get("message", ""))

    def by_page(self, files: list[Sent]) -> list[Answered]:
        """Several in one form: the page names each that was not kept, in the order sent."""
        field = "photos" if files[0].kind == PHOTOS else "files"
        more = {"csrfmiddlewaretoken": TOKEN, "stage": "opened", "kind": KIND}
        body, kind = multipart([(field, file) for file in files], more)
        status, page, took = self._ask("POST", f"/bench/{self.author.unit}/{files[0].kind}/", body,
                                       self.cookies | {"Content-Type": kind})
        found = re.search(r'class="errors".*?<ul>(.*?)</ul>', page.decode("utf-8", "replace"), re.S)
        told = [html.unescape(each) for each in re.findall(r"<li>(.*?)</li>", found[1], re.S)] \
            if found else []
        there = self._keys(files)
        # A file without any name is no file to a form, and is named nowhere.
        left = iter(told)
        return [self._answered(file, "page", status, took, ACCEPTED, there[file.sha256])
                if file.sha256 in there else self._answered(
                    file, "page", status, took,
                    told=next(left, "" if file.name.strip() else "no file"))
                for file in files]

    def _keys(self, files):
        from django.db import connection

        from teardowns.models import Photo, Recording

        model = Photo if files[0].kind == PHOTOS else Recording
        try:
            return dict(model.objects.filter(unit=self.author.unit, sha256__in=[
                file.sha256 for file in files]).values_list("sha256", "key"))
        finally:
            connection.close()

    def _answered(self, file, way, status, took, verdict="", key="", told=""):
        return Answered(file.name, way, status, took, verdict or (
            verdict_of(file.kind, told) if told else ""), file, self.author.unit, key, told)

    def _ask(self, method, path, body, headers):
        begun = time.monotonic()
        try:
            status, _, said = ask(self.port, method, path, body, headers, PATIENCE)
        except (OSError, http.client.HTTPException) as error:
            status, said = 0, repr(error).encode()
        return status, said, time.monotonic() - begun


def multipart(files: list[tuple[str, Sent]], fields: dict[str, str]) -> tuple[bytes, str]:
    """A form as a browser writes it: quotes and line ends of names are percent-encoded (WHATWG)."""
    boundary = uuid.uuid4().hex
    start = f'--{boundary}\r\nContent-Disposition: form-data; name='
    parts = [f'{start}"{name}"\r\n\r\n{value}\r\n'.encode() for name, value in fields.items()]
    for field, file in files:
        name = file.name.replace('"', "%22").replace("\r", "%0D").replace("\n", "%0A")
        head = f'{start}"{field}"; filename="{name}"\r\nContent-Type: image/jpeg\r\n\r\n'
        parts += [head.encode("utf-8", "replace"), file.data, b"\r\n"]
    parts.append(f"--{boundary}--\r\n".encode())
    return b"".join(parts), f"multipart/form-data; boundary={boundary}"


def parsed(body: bytes) -> dict:
    try:
        said = json.loads(body)
    except ValueError:
        return {}
    return said if isinstance(said, dict) else {}


def send_bodies(port: int, author: Author) -> list[Answered]:
    """As a new sheet, as a comment's text and as a search; then everything is looked at."""
    sender, done = Sender(port, author), []
    for name, body, kind in bodies():
        headers = headers_of(author, kind, str(uuid.uuid4()))
        for path in ("/api/v1/bench", f"/api/v1/bench/{author.unit}/fields"):
            method = "POST" if path.endswith("bench") else "PATCH"
            status, _, took = sender._ask(method, path, body, headers)
            done.append(Answered(name, "body", status, took))
        text = quote(body[:1500])
        for path in (f"/units/?q={text}", f"/api/v1/units?q={text}", f"/units/?{text}"):
            status, _, took = sender._ask("GET", path, None, {})
            done.append(Answered(name, "search", status, took))
    for path in ("/bench/", "/units/", "/"):
        done.append(sender.look(path))
    status, _, took = sender._ask("GET", "/api/v1/bench", None, headers_of(author))
    return [*done, Answered("/api/v1/bench", "page", status, took)]


class Fields(HTMLParser):
    """What a browser would send of the form that reads a log, as it was drawn."""

    def __init__(self, page: str):
        super().__init__()
        self.fields: list[tuple[str, str]] = []
        self.select = ""
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        told = dict(attrs)
        if tag == "select":
            self.select, self.first = told.get("name") or "", True
        elif tag == "option" and self.select and ("selected" in told or self.first):
            self.fields = [each for each in self.fields if each[0] != self.select]
            self.fields.append((self.select, told.get("value") or ""))
            self.first = False
        elif tag == "input" and told.get("name") and is_sent(told):
            self.fields.append((told["name"], told.get("value") or ""))

    def handle_endtag(self, tag):
        self.select = "" if tag == "select" else self.select


def is_sent(told: dict[str, str | None]) -> bool:
    kind = told.get("type")
    return kind not in ("submit", "file") and (
        kind not in ("radio", "checkbox") or "checked" in told)


def read_log(port: int, author: Author, unit: int, key: str) -> list[Answered]:
    """Its layout as proposed is confirmed, and what it shows is looked at."""
    sender, done = Sender(port, author), []
    base = f"/bench/{unit}/recordings/{key}/"
    status, page, took = sender._ask("GET", f"{base}layout/", None, sender.cookies)
    done.append(Answered(key, "layout", status, took))
    fields = [each for each in Fields(page.decode("utf-8", "replace")).fields
              if each[0] not in ("act", "csrfmiddlewaretoken")]
    body = urlencode([*fields, ("act", "read"), ("csrfmiddlewaretoken", TOKEN)]).encode()
    status, said, took = sender._ask("POST", f"{base}layout/", body,
                                     sender.cookies | {"Content-Type": FORM})
    verdict = "read" if status == 302 else "refused or asked about"
    done.append(Answered(key, "read", status, took, verdict, said=str(said[:200])))
    status, _, took = sender._ask("GET", base, None, sender.cookies)
    return [*done, Answered(key, "log", status, took)]

