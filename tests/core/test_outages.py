"""Outages are 503 or 507 and never 500, whatever layer meets them; faults of ours stay 500."""
import errno
import json
import sqlite3

import pytest
from django.db import InterfaceError, OperationalError, ProgrammingError
from django.http import HttpResponse

from core.outages import outage_of, read_again, server_error, unavailable


def caused(cause, kind=OperationalError):
    error = kind(*cause.args)
    error.__cause__ = cause
    return error


@pytest.fixture
def locked(tmp_path):
    """What SQLite itself raises where somebody else is writing."""
    holder, other = (sqlite3.connect(tmp_path / "a", timeout=0, isolation_level=None) for _ in "12")
    holder.execute("BEGIN IMMEDIATE")
    with pytest.raises(sqlite3.OperationalError) as raised:
        other.execute("BEGIN IMMEDIATE")
    holder.close()
    other.close()
    return caused(raised.value)


def of_postgresql(state):
    psycopg = pytest.importorskip("psycopg")
    return caused(psycopg.errors.lookup(state)("said by the server"))


def test_a_lock_that_was_not_got_is_busy(locked):
    assert outage_of(locked) == "busy"


def test_a_table_that_is_not_there_is_a_fault():
    with pytest.raises(sqlite3.OperationalError) as raised:
        sqlite3.connect(":memory:").execute("SELECT 1 FROM nowhere")
    assert outage_of(caused(raised.value)) is None


# SQLSTATE as appendix A of PostgreSQL's manual gives them.
@pytest.mark.parametrize(("state", "outage"), [
    ("57P01", "lost"), ("57P03", "lost"), ("53300", "lost"), ("08006", "lost"),
    ("53100", "no_room"), ("40P01", "busy"), ("55P03", "busy"), ("25006", "not_stored")])
def test_what_postgresql_says_of_itself_is_told_apart(state, outage):
    assert outage_of(of_postgresql(state)) == outage


def test_a_column_that_is_not_there_is_a_fault():
    psycopg = pytest.importorskip("psycopg")
    cause = psycopg.errors.UndefinedColumn("no such column")
    assert outage_of(caused(cause, ProgrammingError)) is None


def test_a_server_that_says_nothing_any_more_is_lost():
    psycopg = pytest.importorskip("psycopg")
    assert outage_of(caused(psycopg.OperationalError("the connection is closed"))) == "lost"
    assert outage_of(InterfaceError("connection already closed")) == "lost"


@pytest.mark.parametrize(("number", "outage"), [
    (errno.ENOSPC, "no_room"), (errno.EFBIG, "no_room"), (errno.EROFS, "not_stored"),
    (errno.ENOENT, None)])
def test_what_the_disk_says_is_told_apart(number, outage):
    assert outage_of(OSError(number, "said by the system")) == outage


def test_it_is_found_behind_what_was_raised_after_it(locked):
    try:
        try:
            raise locked
        except OperationalError:
            raise ValueError("while it was put away")       # noqa: B904
    except ValueError as error:
        assert outage_of(error) == "busy"


def test_an_exception_that_is_its_own_reason_ends():
    one, other = ValueError(), ValueError()
    one.__cause__, other.__cause__ = other, one
    assert outage_of(one) is None


@pytest.mark.django_db
def test_the_page_asks_nothing_of_the_database(client, django_assert_num_queries, rf):
    with django_assert_num_queries(0):
        response = unavailable(rf.get("/units/"), "no_room")
    assert response.status_code == 507 and response["Retry-After"] == "5"
    assert "no room for it just now" in response.content.decode()


def test_a_program_is_told_in_json(rf):
    response = unavailable(rf.post("/api/v1/bench"), "busy")
    assert response.status_code == 503 and response["Retry-After"] == "5"
    assert json.loads(response.content)["detail"].startswith("The site has more to do")


def test_a_fault_of_ours_is_500(rf):
    try:
        raise KeyError("a fault")
    except KeyError:
        assert server_error(rf.get("/")).status_code == 500


@pytest.fixture
def failing(client, monkeypatch):
    """A view that fails so often; the answers, and how often it was asked."""
    def fail(error, times):
        left = [error] * times
        asked = []

        def lacking():
            asked.append(1)
            if left:
                raise left.pop()
            return ()

        monkeypatch.setattr("core.operation.views.lacking", lacking)
        client.raise_request_exception = False
        return client.get("/health/ready"), len(asked)
    return fail


LOST = InterfaceError("connection already closed")


@pytest.mark.django_db
def test_what_is_only_read_is_read_again_on_a_new_connection(failing):
    response, asked = failing(LOST, 1)
    assert (response.status_code, asked) == (200, 2)


@pytest.mark.django_db
def test_it_is_read_again_once_and_then_said(failing):
    response, asked = failing(LOST, 5)
    assert (response.status_code, asked) == (503, 2)
    assert "Content-Security-Policy" in response


@pytest.mark.django_db
def test_who_waited_for_a_lock_does_not_wait_twice(failing, locked):
    response, asked = failing(locked, 5)
    assert (response.status_code, asked) == (503, 1)


@pytest.mark.django_db
@pytest.mark.parametrize(("method", "asked"), [("get", 2), ("head", 2), ("post", 1), ("put", 1)])
def test_what_writes_is_never_done_twice(rf, method, asked):
    requests = []

    def lost(request):
        requests.append(request)
        response = HttpResponse(status=503)
        response.lost_connection = True
        return response

    assert read_again(lost)(getattr(rf, method)("/")).status_code == 503
    assert len(requests) == asked
