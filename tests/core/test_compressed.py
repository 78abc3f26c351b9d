"""Pages are compressed for whoever takes that, and nothing else is."""
import gzip

import pytest
from django.urls import reverse

from teardowns.services.write_comment import write_comment
from tests.corrections import public_unit

pytestmark = pytest.mark.django_db
TAKES = {"accept-encoding": "gzip, br"}


def test_a_page_is_the_same_compressed(client):
    plain, packed = (client.get(reverse("licence"), headers=headers) for headers in ({}, TAKES))
    assert packed["Content-Encoding"] == "gzip" and "Accept-Encoding" in packed["Vary"]
    assert len(packed.content) < len(plain.content) / 2
    assert _without_nonce(gzip.decompress(packed.content)) == _without_nonce(plain.content)


def test_who_takes_no_compression_gets_none(client):
    assert "Content-Encoding" not in client.get(reverse("licence")).headers


def test_what_programs_read_keeps_its_strong_etag(client):
    answer = client.get("/api/v1/units", headers=TAKES)
    assert answer.status_code == 200
    assert "Content-Encoding" not in answer.headers
    assert not answer.headers.get("ETag", "").startswith("W/")


def test_a_reader_who_has_the_compressed_page_gets_304(client, alice, bob):
    unit = public_unit(alice)
    write_comment(author=bob, thing=unit, text="Where was it bought?")     # the log has a beginning
    first = client.get(unit.get_absolute_url(), headers=TAKES)
    assert first["Content-Encoding"] == "gzip"
    again = client.get(unit.get_absolute_url(), headers=TAKES | {"if-none-match": first["ETag"]})
    assert again.status_code == 304


def _without_nonce(page):
    nonce = page.partition(b'nonce="')[2].partition(b'"')[0]
    return page.replace(nonce, b"")
