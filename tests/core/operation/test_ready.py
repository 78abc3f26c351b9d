import pytest
from django.core.files.storage import storages
from django.db import DatabaseError, connection

from core.operation import ready

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def nothing_found_yet(monkeypatch):
    monkeypatch.setattr(ready, "_found", None)


def test_a_site_with_all_it_needs_lacks_nothing():
    assert ready.look() == ()


def test_each_thing_that_is_missing_is_named(monkeypatch):
    def refused(*args):
        raise DatabaseError

    def fails(name):
        raise OSError

    monkeypatch.setattr(storages["originals"], "exists", fails)
    assert ready.look() == ("storage",)
    monkeypatch.setattr(ready, "_is_behind", lambda: True)
    assert ready.look() == ("migrations", "storage")
    monkeypatch.setattr(ready, "_is_behind", refused)
    assert ready.look() == ("database",)


def test_what_was_found_holds_for_some_seconds(monkeypatch):
    assert ready.lacking() == ()
    monkeypatch.setattr(ready, "look", lambda: ("database",))
    assert ready.lacking() == ()
    monkeypatch.setattr(ready, "_found", (ready.monotonic() - 4, ()))
    assert ready.lacking() == ("database",)


def test_a_connection_that_was_used_is_still_good():
    ready.look()
    assert connection.is_usable()


def test_a_database_newer_than_the_code_is_said_once_and_serves(monkeypatch, caplog):
    monkeypatch.setattr(ready, "unknown", lambda loader: ["core.0009_later"])
    ready._say_once.cache_clear()
    assert (ready.look(), ready.look()) == ((), ())
    assert [each.getMessage() for each in caplog.records] == [
        "The database is newer than this code: core.0009_later is not known here"]
