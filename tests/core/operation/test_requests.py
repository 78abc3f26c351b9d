import logging

import pytest

from core.operation.counts import own

pytestmark = pytest.mark.django_db


@pytest.fixture
def lines(caplog):
    caplog.set_level(logging.INFO, "core.requests")
    return lambda: [record for record in caplog.records if record.name == "core.requests"]


def count(method, route, status):
    return own.get_sample_value("underplate_requests_total", {
        "method": method, "route": route, "status": status}) or 0


def test_each_request_is_one_line_and_one_count(client, lines):
    before = count("GET", "sign_in", "200")
    client.get("/sign-in/?next=/somewhere/typed/")
    record, = lines()
    assert (record.method, record.route, record.status) == ("GET", "sign_in", 200)
    assert record.user is None
    assert record.milliseconds > 0 and "typed" not in record.getMessage()
    assert count("GET", "sign_in", "200") == before + 1


def test_who_is_signed_in_is_a_number(client, alice, lines):
    client.force_login(alice)
    client.get("/account/")
    assert lines()[-1].user == alice.pk


def test_an_invented_method_is_no_label_of_its_own(client):
    before = count("other", "-", "405") + count("other", "sign_in", "405")
    client.generic("BREW", "/sign-in/")
    assert count("other", "-", "405") + count("other", "sign_in", "405") == before + 1


def test_an_answer_of_500_is_counted_too(client, monkeypatch, lines):
    client.raise_request_exception = False
    monkeypatch.setattr("core.operation.views.lacking", lambda: 1 / 0)
    assert client.get("/health/ready").status_code == 500
    assert lines()[-1].status == 500
