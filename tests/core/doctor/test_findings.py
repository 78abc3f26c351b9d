"""A check that breaks is a finding, and where no database answers none of its checks is made."""
import pytest
from django.db import DatabaseError, connection

from core.doctor import findings
from core.doctor.findings import Level, examine, good


@pytest.fixture
def checks(monkeypatch):
    monkeypatch.setattr(findings, "CHECKS", [])
    return findings.CHECKS


@pytest.mark.django_db
def test_a_check_that_breaks_is_a_fault_and_the_others_go_on(checks):
    @findings.examines("a")
    def broken():
        raise ValueError("what somebody typed")

    @findings.examines("b")
    def sound():
        yield good("all is well")

    one, other = examine()
    assert (one.level, one.subject) == (Level.FAULT, "a") and "ValueError" in one.said
    assert "typed" not in one.said and other.said == "all is well"


def test_without_a_database_what_asks_it_is_passed_over(checks, monkeypatch):
    def refused():
        raise DatabaseError("connection refused")

    monkeypatch.setattr(connection, "ensure_connection", refused)
    findings.examines("a", asks_database=True)(lambda: [good("asked")])
    findings.examines("b")(lambda: [good("not asked")])
    assert [each.said for each in examine()] == ["not asked"]


@pytest.mark.django_db
def test_where_tables_are_not_there_yet_that_is_said_once(checks):
    @findings.examines("audit", asks_database=True)
    def asks_a_table():
        raise DatabaseError("no such table")

    findings.examines("migrations")(lambda: [findings.fault("not applied", "Run migrate.")])
    assert [each.said for each in examine()] == ["not applied"]
    assert ["broke" in each.said for each in examine(["audit"])] == [True]


@pytest.mark.django_db
def test_the_database_comes_first_and_then_subjects_by_name(checks):
    for subject in ("web", "audit", "database"):
        findings.examines(subject)(lambda: [good("x")])
    assert [each.subject for each in examine()] == ["database", "audit", "web"]
    assert [each.subject for each in examine(["web"])] == ["web"]
