"""A statement is drafted for a look, then given once, told, and traced in the log."""
import pytest

from teardowns.models import Decision, Notice, Statement
from teardowns.services.state_reasons import (
    RESTRICTS,
    TOLD_AS,
    UNDONE,
    NoReason,
    draft_statement,
    give_reasons,
    traces,
)

pytestmark = pytest.mark.django_db


def said(alice, mona, **other):
    return {"decision": "suspend", "code": "abuse", "facts": " Floods. ", "addressee": alice,
            "subject": f"user/{alice.pk}", "by": mona} | other


def test_a_draft_is_what_is_given_and_is_not_kept(alice, mona):
    draft = draft_statement(**said(alice, mona))
    assert not Statement.objects.exists() and draft.facts == "Floods."
    given = give_reasons(**said(alice, mona))
    assert (given.rule, given.facts, given.remedy) == (draft.rule, draft.facts, draft.remedy)


def test_its_addressee_hears_of_it_once(alice, mona):
    statement = give_reasons(**said(alice, mona))
    notice = Notice.objects.get()
    assert notice.person == alice and notice.address == f"/statements/{statement.uid}/"


def test_the_log_keeps_its_digest_and_none_of_its_facts(alice, mona):
    statement = give_reasons(**said(alice, mona))
    kept = traces(statement)
    assert kept["statement_digest"] == statement.digest and "Floods." not in kept.values()


@pytest.mark.parametrize("wrong", [{"code": ""}, {"code": "Spam"}, {"facts": "\n"}])
def test_without_a_reason_and_facts_there_is_no_statement(alice, mona, wrong):
    with pytest.raises(NoReason):
        give_reasons(**said(alice, mona, **wrong))


def test_what_no_person_decided_says_so(alice):
    assert draft_statement(**said(alice, None)).automated


def test_every_decision_says_how_it_is_undone_or_what_comes_next():
    assert set(UNDONE) == set(Decision.values)


def test_every_decision_that_restricts_can_be_appealed_against(alice, mona):
    for decision in Decision.values:
        remedy = draft_statement(**said(alice, mona, decision=decision)).remedy
        assert ("within six months" in remedy) == (decision in RESTRICTS), decision


def test_what_is_not_told_here_is_told_by_its_own_service():
    assert set(Decision.values) - set(TOLD_AS) == {
        Decision.WITHDRAW, Decision.REINSTATE, Decision.COMMENT_REMOVED, Decision.REPLY_DECLINED}
