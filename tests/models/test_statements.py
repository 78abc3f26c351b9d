"""A statement of reasons stays as it was given."""
import pytest
from django.db import IntegrityError, transaction

from teardowns.models import Approval, Statement, Unalterable
from teardowns.services.state_reasons import draft_statement, give_reasons

pytestmark = pytest.mark.django_db


@pytest.fixture
def statement(unit, alice, mona):
    return give_reasons(decision="quarantine", code="spam", facts="A leaflet.", unit=unit,
                        subject=f"unit/{unit.pk}", addressee=alice, by=mona)


def test_it_is_neither_changed_nor_deleted(statement):
    statement.facts = "Something else."
    for alter in (statement.save, statement.delete, Statement.objects.all().delete,
                  lambda: Statement.objects.update(facts="Something else.")):
        with pytest.raises(Unalterable):
            alter()
    assert Statement.objects.get().facts == "A leaflet."


def test_its_digest_tells_an_alteration(statement):
    before = statement.digest
    statement.facts = "A leaflet, twice."
    assert statement.digest != before and Statement.objects.get().digest == before


def test_it_says_facts_rule_automation_and_the_way_to_appeal(statement):
    assert statement.rule.startswith("Records, comments") and not statement.automated
    assert "appeal" in statement.remedy and "released" in statement.remedy.replace(
        "releases", "released")


def test_without_an_addressee_no_appeal_is_promised(unit, mona):
    said = draft_statement(decision="report_dismissed", code="spam", facts="No.",
                           subject="report/1", unit=unit, by=mona)
    assert "appeal" not in said.remedy and said.pk is None


def test_the_database_refuses_an_approval_by_who_asked(mona):
    with pytest.raises(IntegrityError), transaction.atomic():
        Approval.objects.create(action="merge", subject="unit/1", asked_by=mona, decided_by=mona,
                                code="duplicate", reason="Same.", state="approved")
