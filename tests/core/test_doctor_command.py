"""The command: words or JSON, and what it exits with."""
import json
from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from core.doctor import findings
from core.doctor.findings import fault, good, warning


@pytest.fixture(autouse=True)
def two_checks(monkeypatch, db):
    monkeypatch.setattr(findings, "CHECKS", kept := list(findings.CHECKS))
    findings.examines("one")(lambda: [good("It works.")])
    findings.examines("two")(lambda: [warning("It may break.", "Mend it.")])
    findings.examines("three")(lambda: [fault("It is broken.", "Repair it.")])
    monkeypatch.setattr("core.management.commands.doctor.CHECKS", kept)


def run(*arguments):
    out = StringIO()
    try:
        call_command("doctor", *arguments, stdout=out, no_color=True)
    except SystemExit as end:
        return out.getvalue(), end.code
    return out.getvalue(), 0


def test_words_name_the_remedy_and_only_a_fault_fails():
    words, code = run("two")
    assert "WARNING  It may break." in words and "→ Mend it." in words and code == 0
    assert run("two", "--strict")[1] == 1
    assert run("three")[1] == 1 and run("one", "--strict")[1] == 0


def test_as_json_a_program_can_read_it():
    text, code = run("three", "--json")
    assert code == 1 and json.loads(text) == [
        {"level": "fault", "said": "It is broken.", "remedy": "Repair it.", "subject": "three"}]


def test_a_subject_that_is_none_is_named():
    with pytest.raises(CommandError, match="no subject teeth"):
        run("teeth")
