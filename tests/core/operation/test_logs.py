"""JSON lines carry what happened, and nothing that somebody typed or that opens a door."""
import json
import logging
import sys
from types import SimpleNamespace

import pytest

from core.operation.logs import JsonLines, WithoutPaths, route_of


def line(message="saved", *args, **more):
    record = logging.LogRecord("site", logging.INFO, "", 1, message, args, None)
    record.__dict__ |= more
    WithoutPaths().filter(record)
    return json.loads(JsonLines().format(record))


def request(path, name=None):
    match = SimpleNamespace(view_name=name) if name else None
    return SimpleNamespace(path=path, resolver_match=match)


def test_a_line_is_one_object_with_when_and_what():
    said = line("saved %s", 5, request_id="ab")
    assert said.pop("at").endswith("+00:00")
    assert said == {"level": "INFO", "logger": "site", "request_id": "ab", "message": "saved 5"}


def test_a_line_about_a_request_names_the_route_and_not_the_path():
    path = "/password/new/1/secret-key/"
    said = line("%s: %s", "Not Found", path, request=request(path, "account_reset_password"))
    assert said["message"] == "Not Found: account_reset_password"
    assert "secret-key" not in json.dumps(said)


def test_a_path_that_met_no_route_is_a_dash():
    assert line("%s: %s", "Not Found", "/x", request=request("/x"))["message"] == "Not Found: -"
    assert route_of(request("/x")) == "-"


def test_line_breaks_of_others_forge_no_line():
    record = logging.LogRecord("site", logging.INFO, "", 1, "a\n{\"level\": \"x\"}", (), None)
    assert "\n" not in JsonLines().format(record)


def test_an_exception_is_its_kind_and_where_it_was_raised():
    try:
        raise ValueError("what somebody typed")
    except ValueError:
        record = logging.LogRecord("site", logging.ERROR, "", 1, "broke", (), sys.exc_info())
    said = JsonLines().format(record)
    assert json.loads(said)["exception"] == "builtins.ValueError"
    assert "test_logs.py:" in json.loads(said)["raised"][0] and "typed" not in said


@pytest.mark.django_db
def test_a_real_answer_of_404_logs_no_path(client, caplog):
    handler = caplog.handler
    handler.addFilter(paths := WithoutPaths())
    try:
        client.get("/units/0/what-somebody-typed/")
    finally:
        handler.removeFilter(paths)
    assert caplog.records and "typed" not in caplog.text
