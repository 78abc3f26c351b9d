"""A statement as its addressee reads it: no moderator's name, automation said."""
import pytest

from teardowns.presenting.statement_sheet import statement_sheet
from teardowns.services.state_reasons import draft_statement, give_reasons

pytestmark = pytest.mark.django_db


def said(unit, by):
    return {"decision": "hide", "code": "personal_data", "facts": "A face.", "unit": unit,
            "subject": f"unit/{unit.pk}", "addressee": unit.contributor, "by": by}


def test_a_given_one_has_its_number_and_time_and_no_name(unit, mona):
    sheet = statement_sheet(give_reasons(**said(unit, mona)))
    assert sheet.uid and sheet.at.endswith("UTC") and sheet.by == "a moderator"
    assert sheet.about == f"Veltrice VQ-45 (record {unit.pk})"


def test_a_draft_has_neither_yet(unit, mona):
    sheet = statement_sheet(draft_statement(**said(unit, mona)))
    assert (sheet.uid, sheet.at) == ("", "")


def test_what_the_rule_did_says_so(unit):
    assert "without a person" in statement_sheet(draft_statement(**said(unit, None))).automated


def test_what_is_about_an_account_names_it(alice, mona):
    sheet = statement_sheet(draft_statement(
        decision="suspend", code="abuse", facts="Forty records in an hour.",
        subject=f"user/{alice.pk}", addressee=alice, by=mona))
    assert sheet.about == "alice"
