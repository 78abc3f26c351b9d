"""A log in blocks: begun with what the form would say, taken in with the last byte."""
import json

import pytest

from teardowns.models import Port, Recording
from tests.recordings import thermal_log

pytestmark = pytest.mark.django_db


@pytest.fixture
def start(client, alice, unit):
    client.force_login(alice)

    def begun(content, **said):
        about = {"name": "warm.csv", "size": len(content), "kind": "thermal"} | said
        return client.post(f"/bench/{unit.pk}/recordings/uploads/", json.dumps(about),
                           content_type="application/json")
    return begun


@pytest.fixture
def put(client, unit):
    def sent(answer, block, offset):
        return client.put(f"/bench/{unit.pk}/recordings/uploads/{answer.json()['upload']}/", block,
                          content_type="application/octet-stream",
                          headers={"Upload-Offset": str(offset)})
    return sent


@pytest.fixture
def content(tmp_path):
    return thermal_log(tmp_path).read_bytes()


def test_two_blocks_make_a_log_and_its_page(start, put, client, alice, unit, content):
    Port.objects.create(unit=unit, author=alice, key="c1", label="C1")
    begun = start(content, port="c1", instrument="Logger 8")
    half = put(begun, content[:700], 0)
    assert (half.status_code, half.headers["Upload-Offset"]) == (204, "700")
    last = put(begun, content[700:], 700)
    kept = Recording.objects.get()
    assert (kept.kind, kept.port.key, kept.instrument) == ("thermal", "c1", "Logger 8")
    assert last.json() == {"kept": f"/bench/{unit.pk}/recordings/thermal-1/"}
    assert client.get(last.json()["kept"], follow=True).status_code == 200


@pytest.mark.parametrize("said, words", [
    ({"kind": "protocol"}, "What was logged: "), ({"kind": 7}, "What was logged: "),
    ({"port": "c9"}, "Port: "), ({"instrument": "x" * 121}, "Instrument: "),
    ({"instrument": "a\0b"}, "Instrument: "), ({"size": 0}, "the file is empty"),
    ({"size": 10 ** 12}, "larger than"), ({"name": None}, "no name or no size")])
def test_what_the_form_would_refuse_is_refused_in_its_words(start, content, said, words):
    answer = start(content, **said)
    assert answer.status_code == 422 and words in answer.json()["message"]


def test_a_file_that_is_no_table_is_refused_when_it_has_arrived(start, put):
    content = b"Nothing was logged that day.\n"
    answer = put(start(content), content, 0)
    assert answer.status_code == 422 and "No table of numbers" in answer.json()["message"]
    assert not Recording.objects.exists()


def test_a_file_that_is_here_is_not_sent_twice(start, laid_out):
    answer = start(b"x", sha256=laid_out.sha256)
    assert answer.json() == {"kept": f"/bench/{laid_out.unit_id}/recordings/{laid_out.key}/"}


def test_another_ones_sheet_is_not_found(start, client, bob, content):
    client.force_login(bob)
    assert start(content).status_code == 404
