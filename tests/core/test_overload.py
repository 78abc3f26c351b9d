"""Who waited too long for a thread is refused at once; writing may wait longer, health for ever.

Writers never hold every thread.
"""
import re
import socket
import time

import pytest

from core import overload
from core.management.commands.demo import web_command
from core.overload import LONGEST, MOST_WRITERS, SHORT, Waits, waited, writers
from core.settings import BASE_DIR


class Line:
    """A socket whose last byte came in so many seconds ago."""

    def __init__(self, seconds):
        self.seconds = seconds

    def getsockopt(self, level, option, length):
        return bytes(length - 4) + round(self.seconds * 1000).to_bytes(4, "little")


@pytest.fixture
def answered(client):
    def ask(method, path, seconds):
        return getattr(client, method)(path, **{"gunicorn.socket": Line(seconds)})
    return ask


@pytest.mark.django_db
@pytest.mark.parametrize(("method", "seconds", "status"), [
    ("get", 2.9, 200), ("get", 3.1, 503), ("head", 3.1, 503), ("post", 3.1, 200),
    ("post", 10.1, 503)])
def test_a_read_waits_three_seconds_and_a_form_ten(answered, method, seconds, status):
    response = answered(method, "/sign-in/", seconds)
    assert response.status_code == status
    assert ("Retry-After" in response) == (status == 503)


def asked(waits, every, *seconds, begun=0.0):
    """What each may have waited; a request each `every` s."""
    return [waits.longest(wait, begun + number * every) for number, wait in enumerate(seconds)]


def test_a_rush_that_passes_is_waited_out():
    waits = Waits()
    assert set(asked(waits, 0.01, *[1.5] * 900)) == {LONGEST}         # for 9 s
    assert set(asked(waits, 1.0, *[1.5] * 99, begun=60)) == {LONGEST}    # few, each of them late


def test_where_everybody_comes_late_who_reads_is_refused_early_until_nobody_does():
    waits = Waits()
    allowed = asked(waits, 0.02, *[2.9] * 700)                        # for 14 s
    assert allowed == [LONGEST] * 500 + [SHORT] * 200                 # 10 s of them a rush
    assert set(asked(waits, 0.02, *[0.1, 0.6, 0.1] * 20, begun=14)) == {SHORT}
    quiet = asked(waits, 0.1, *[0.1] * 40, begun=15.2)
    assert (quiet[0], quiet[-1]) == (SHORT, LONGEST)


@pytest.mark.django_db
def test_a_long_line_refuses_a_reader_and_takes_a_form(answered, monkeypatch):
    monkeypatch.setattr(overload.waits, "is_long", True)
    monkeypatch.setattr(overload.waits, "_last", time.monotonic())
    assert answered("get", "/units/", 0.6).status_code == 503
    assert answered("post", "/sign-in/", 0.6).status_code == 200
    assert answered("get", "/units/", 0.4).status_code == 200


@pytest.mark.django_db
def test_a_refusal_asks_nothing_of_the_database(answered, django_assert_num_queries):
    with django_assert_num_queries(0):
        assert answered("get", "/units/", 9).status_code == 503


@pytest.mark.django_db
def test_whoever_watches_the_site_is_always_answered(answered):
    assert answered("get", "/health/alive", 60).status_code == 200


@pytest.fixture
def busy_writers():
    """As many requests that write as may do so at once."""
    for _ in range(MOST_WRITERS):
        assert writers.acquire(blocking=False)
    yield
    for _ in range(MOST_WRITERS):
        writers.release()


@pytest.mark.django_db
def test_one_writer_too_many_is_told_to_come_back_and_readers_are_served(client, busy_writers):
    response = client.post("/sign-in/")
    assert response.status_code == 503 and response["Retry-After"] == "5"
    assert client.get("/sign-in/").status_code == 200


@pytest.mark.django_db
def test_a_writer_who_is_done_makes_room(client):
    for _ in range(MOST_WRITERS + 1):
        assert client.post("/sign-in/").status_code == 200


@pytest.mark.parametrize("command", [
    "fixtures/deploy/underplate-web.service", "fixtures/deploy/compose.yml", ""])
def test_a_process_has_threads_that_writers_do_not_take(command):
    text = (BASE_DIR / command).read_text() if command else " ".join(web_command(8000))
    assert int(re.search(r"--threads (\d+)", text)[1]) >= MOST_WRITERS + 3


def test_without_such_a_server_nobody_has_waited(rf):
    assert waited(rf.get("/")) == 0


@pytest.mark.skipif(not hasattr(socket, "TCP_INFO"), reason="the kernel is not Linux")
def test_the_kernel_says_how_long_ago_the_last_byte_came(rf):
    with socket.create_server(("127.0.0.1", 0)) as door, \
            socket.create_connection(door.getsockname()) as sender:
        line, _ = door.accept()
        with line:
            sender.sendall(b"x")
            time.sleep(0.05)
            request = rf.get("/", **{"gunicorn.socket": line})
            assert 0.03 < waited(request) < 30
