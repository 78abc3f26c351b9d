"""Reports of the content policy: logged by directive and route, and nothing of a person."""
import json
import logging

import pytest

from core import csp_reports
from core.headers import REPORTS
from core.process_limits import Buckets

pytestmark = pytest.mark.django_db
SECRET = "https://evil.example/steal?token=7f3a"


@pytest.fixture(autouse=True)
def full_buckets(monkeypatch):
    monkeypatch.setattr(csp_reports, "buckets", Buckets())


@pytest.fixture
def send(client, caplog):
    caplog.set_level(logging.WARNING, "core.csp_reports")

    def sent(said, kind="application/csp-report"):
        body = said if isinstance(said, bytes) else json.dumps(said).encode()
        answer = client.post(REPORTS, body, content_type=kind)
        assert (answer.status_code, answer.content) == (204, b"")
        return [record.getMessage() for record in caplog.records]
    return sent


def of_old_form(**told):
    return {"csp-report": {"violated-directive": "script-src-elem", "blocked-uri": SECRET,
                           "document-uri": "http://x/units/7/?q=alice"} | told}


def of_new_form(**told):
    return {"type": "csp-violation", "user_agent": "alice", "body": {
        "effectiveDirective": "img-src", "blockedURL": "inline", "sample": "alice's words",
        "documentURL": "http://x/people/alice/"} | told}


def test_every_page_says_where_reports_go(client):
    answer = client.get("/")
    directives = answer["Content-Security-Policy"].split("; ")
    assert {f"report-uri {REPORTS}", "report-to csp"} <= set(directives)
    assert answer["Reporting-Endpoints"] == f'csp="{REPORTS}"'


def test_a_report_is_logged_by_directive_kind_and_route(send):
    assert send(of_old_form()) == [
        "content policy: script-src-elem blocked an address on units/<int:pk>/"]


def test_a_list_of_reports_of_the_newer_form_is_read_and_no_name_or_word_is_kept(send):
    said = send([of_new_form(), of_new_form(documentURL="http://x/nowhere/alice")],
                "application/reports+json")
    assert len(said) == 2 and "img-src blocked inline" in said[0]
    assert "no page of ours" in said[1] and "alice" not in " ".join(said)


@pytest.mark.parametrize("told", [
    {"violated-directive": "a\nCRITICAL core forged"}, {"violated-directive": 7},
    {"blocked-uri": "\n"}, {"document-uri": "http://[x"}, {"document-uri": None}])
def test_no_line_of_the_log_can_be_forged(send, told):
    assert all("\n" not in line and "CRITICAL" not in line for line in send(of_old_form(**told)))


@pytest.mark.parametrize("body", [b"", b"nonsense", b"[" * 9000, b"null", b"7", b"[[]]", b"\xff",
                                  b'{"csp-report": []}'])
def test_what_is_no_report_is_answered_alike_and_not_logged(send, body):
    assert send(body) == []


def test_one_that_is_too_large_is_not_read_and_of_many_at_once_ten_are(send):
    assert send(of_old_form(more="x" * csp_reports.MOST_BYTES)) == []
    assert len(send([of_new_form()] * 30)) == csp_reports.MOST_IN_ONE


def test_a_network_is_heard_sixty_times_an_hour(send):
    for _ in range(csp_reports.OF_A_NETWORK + 20):
        said = send(of_old_form())
    assert len(said) == csp_reports.OF_A_NETWORK
