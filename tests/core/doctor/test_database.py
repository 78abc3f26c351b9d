import pytest
from django.db import DatabaseError, connection

from tests.core.doctor.found import bad, found


@pytest.mark.django_db
def test_a_database_that_answers_is_named_with_its_version():
    (level, said), = found("database")
    assert level == "good" and connection.display_name in said


def test_one_that_does_not_says_why_and_no_more(monkeypatch):
    def refused():
        raise DatabaseError("connection refused\nHINT: is the server running?")

    monkeypatch.setattr(connection, "ensure_connection", refused)
    assert bad("database") == "The database does not answer: connection refused"
