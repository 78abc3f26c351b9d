"""Bodies of requests that are no honest JSON, or hold what nobody would type."""
from __future__ import annotations

import json
from collections.abc import Iterator

from .names import TEXTS

SOUND = {"title": "Hub with four ports", "kind": "plug_in"}
DEPTHS = (40, 100, 900, 5_000, 100_000)


def bodies() -> Iterator[tuple[str, bytes, str]]:
    """Name, body and content type; of a new sheet, which is as good a place as any."""
    yield from nested()
    yield from broken()
    yield from encoded()
    yield from told_too_much()
    for number, text in enumerate(TEXTS):
        yield f"text-{number}", json.dumps(SOUND | {"title": text}).encode(), "application/json"
        yield f"kind-{number}", json.dumps(SOUND | {"kind": text}).encode(), "application/json"


def nested():
    for depth in DEPTHS:
        for name, start, end in (("list", "[", "]"), ("object", '{"a":', "}")):
            whole = start * depth + "1" + end * depth
            yield f"{name}-{depth}", whole.encode(), "application/json"
            yield f"{name}-open-{depth}", (start * depth).encode(), "application/json"
            yield f"{name}-inside-{depth}", f'{{"title": {whole}}}'.encode(), "application/json"


def broken():
    for number, text in enumerate((
            "", " ", "null", "true", "0", "-0", "1e999", "NaN", "Infinity", "-Infinity", '"a"',
            "[]", "{}", "{", "[1,]", "{'a':1}", '{"a":1,}', '{"title":"a","title":"b"}',
            '{"title":"\\', "//",
            '{"title":"\\ud800"}', '{"title":"a\\u0000b"}', '{"title":"\x00"}', '{"title":"\t"}',
            '{"title":' + "9" * 5_000 + "}", '{"title":1e9999}', '{"title":1}', '{"title":null}',
            '{"title":["a"]}', '{"title":{"a":1}}', '{"title":true}', '{"":1}', '{"\\ud800":1}',
            '{"__proto__":{"a":1},"title":"a"}', "\ufeff" + json.dumps(SOUND), "a" * 3_000_000)):
        yield f"broken-{number}", text.encode("utf-8", "surrogatepass"), "application/json"
    many = {f"k{n}": n for n in range(100_000)}
    yield "many-keys", json.dumps(many).encode(), "application/json"
    yield "form-of-many", b"&".join(b"a%d=1" % n for n in range(5_000)), \
        "application/x-www-form-urlencoded"


def encoded():
    text = json.dumps(SOUND)
    for codec in ("utf-16", "utf-16-le", "utf-32", "utf-7", "utf-8-sig", "cp500"):
        yield f"codec-{codec}", text.encode(codec), "application/json"
    for kind in ("application/json; charset=utf-16", "application/json; charset=nonsense",
                 "text/html", "application/xml", "multipart/form-data",
                 "multipart/form-data; boundary=" + "a" * 300, "", "a/b/c", "application/json" * 99,
                 'application/x-www-form-urlencoded; charset="\0"'):
        yield f"kind-told-{kind[:30]!r}", text.encode(), kind
    yield "bad-bytes", b'{"title":"\xff\xfe\x80"}', "application/json"
    part = b'--b\r\nContent-Disposition: form-data; name="file"; filename="a"\r\n'
    coded = part + b"Content-Transfer-Encoding: base64\r\n\r\n" + b"A" * 99_999 + b"\r\n--b--\r\n"
    yield "base64-part", coded, "multipart/form-data; boundary=b"
    yield "unended-part", part + b"\r\nabc", "multipart/form-data; boundary=b"
    yield "files-101", (part + b"\r\na\r\n") * 101 + b"--b--\r\n", "multipart/form-data; boundary=b"
    yield "headers-of-a-part", part + b"X: y\r\n" * 5_000 + b"\r\na\r\n--b--\r\n", \
        "multipart/form-data; boundary=b"


def told_too_much():
    """Fields that nobody may set, beside those that one may."""
    for name, value in {"id": 1, "pk": 1, "contributor": 1, "status": "published", "version": 99,
                        "published_at": "2020-01-01", "quarantined_at": None, "is_staff": True,
                        "role": "administrator", "author_id": 1, "created_at": "x"}.items():
        yield f"beside-{name}", json.dumps(SOUND | {name: value}).encode(), "application/json"
