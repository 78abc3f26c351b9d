"""Strangers learn that it lives and whether it is ready; figures are for administrators alone."""
import base64

import pytest
from django.db import DatabaseError, connections
from prometheus_client.parser import text_string_to_metric_families

from core.operation import ready


@pytest.fixture
def token(settings):
    settings.METRICS_TOKEN = "a-long-token"
    return settings.METRICS_TOKEN


def basic(text):
    return {"Authorization": f"Basic {base64.b64encode(text.encode()).decode()}"}


def test_alive_asks_nothing_of_the_database(client):
    """Without the mark that lets a test ask it, each question to it is an error."""
    answer = client.get("/health/alive")
    assert (answer.status_code, answer.content) == (200, b"alive\n")


@pytest.mark.django_db
def test_ready_says_so_and_no_more(client, monkeypatch):
    monkeypatch.setattr(ready, "_found", None)
    assert (client.get("/health/ready").status_code) == 200
    monkeypatch.setattr(ready, "_found", (ready.monotonic(), ("database",)))
    answer = client.get("/health/ready")
    assert (answer.status_code, answer.content) == (503, b"not ready\n")


@pytest.mark.django_db
def test_health_is_answered_without_https(client, settings):
    settings.SECURE_SSL_REDIRECT = True
    assert client.get("/health/alive").status_code == 200


@pytest.mark.django_db
@pytest.mark.parametrize("sent", ["metrics:wrong", "other:a-long-token", "metrics:", "metrics"])
def test_without_the_token_the_figures_are_not_there(client, token, sent):
    assert client.get("/metrics").status_code == 404
    assert client.get("/metrics", headers=basic(sent)).status_code == 404
    assert client.get("/metrics", headers={"Authorization": "Basic ö"}).status_code == 404


@pytest.mark.django_db
def test_where_no_token_is_set_an_empty_one_opens_nothing(client, settings):
    settings.METRICS_TOKEN = ""
    assert client.get("/metrics", headers=basic("metrics:")).status_code == 404


@pytest.mark.django_db
def test_figures_are_in_the_open_format(client, token):
    client.get("/sign-in/")
    answer = client.get("/metrics", headers=basic(f"metrics:{token}"))
    assert answer.status_code == 200 and answer["Cache-Control"] == "no-store"
    families = {each.name: each for each in text_string_to_metric_families(answer.text)}
    assert {"underplate_requests", "underplate_request_seconds", "underplate_jobs_waiting",
            "underplate_workers", "underplate_log_entries", "underplate_disk_free_bytes",
            "underplate_database_bytes"} <= set(families)
    assert families["underplate_database_bytes"].samples[0].value > 0


def test_what_was_counted_is_told_although_the_database_is_down(client, token, monkeypatch):
    def refused(*args):
        raise DatabaseError

    monkeypatch.setattr(connections["default"], "cursor", refused)
    answer = client.get("/metrics", headers=basic(f"metrics:{token}"))
    assert answer.status_code == 200 and "underplate_disk_free_bytes" in answer.text
    assert "underplate_jobs_waiting" not in answer.text


@pytest.mark.django_db
def test_an_administrator_sees_them_after_a_second_factor(client, ada):
    client.force_login(ada, second_factor=False)
    assert client.get("/metrics").status_code == 404
    client.force_login(ada)
    assert client.get("/metrics").status_code == 200
    ada.role = "moderator"
    ada.save()
    assert client.get("/metrics").status_code == 404
