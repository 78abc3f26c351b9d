"""Making a withdrawn record public again: by another moderator, with a reason."""
import pytest
from django.http import Http404

from core.audit.models import Entry
from teardowns.models import Decision, Notice, ScenarioSet, Statement
from teardowns.services.edit_scenarios import RULEBOOKS_OWN, edit_scenario, numbered_scenarios
from teardowns.services.edit_scenarios import put_in_force as put
from teardowns.services.reinstate_unit import reinstate_unit
from teardowns.services.withdraw_unit import withdraw_unit
from teardowns.workflow import NotNow
from tests.corrections import public_unit

WHY = {"code": "looked_at_again", "facts": "The photo shows this specimen after all."}


@pytest.fixture
def unit(alice):
    return public_unit(alice)


def withdrawn(unit, by):
    withdraw_unit(by=by, unit_pk=unit.pk, code="not_this_unit", facts="Another specimen.")
    unit.refresh_from_db()
    return unit


def reinstate(unit, by):
    reinstate_unit(moderator=by, unit_pk=unit.pk, **WHY)
    unit.refresh_from_db()


def test_another_moderator_makes_it_public_as_it_was(unit, alice, mona, milo):
    reinstate(withdrawn(unit, mona), milo)
    newest = unit.publications.get()
    assert unit.is_public and unit.publication == newest
    assert (newest.withdrawn_at, newest.withdrawal_code, newest.withdrawal_reason) == (None, "", "")


def test_it_is_one_statement_one_entry_and_the_contributor_is_told(unit, alice, mona, milo):
    reinstate(withdrawn(unit, mona), milo)
    assert Statement.objects.filter(decision=Decision.REINSTATE).count() == 1
    assert Entry.objects.filter(action="work_reinstate").count() == 1
    assert Notice.objects.filter(person=alice, kind="reinstated").count() == 1


def test_not_by_who_withdrew_it(unit, mona):
    with pytest.raises(NotNow, match="another moderator"):
        reinstate(withdrawn(unit, mona), mona)


@pytest.mark.parametrize("name", ["alice", "bob", "rita", "ada"])
def test_only_a_moderator_may(unit, name, mona, request):
    with pytest.raises(Http404):
        reinstate(withdrawn(unit, mona), request.getfixturevalue(name))


def test_not_what_was_merged_into_another(unit, alice, mona, milo):
    other = public_unit(alice, uid="6f1d7c1e-5f0a-4c39-9d51-0d3c5a5b7e12")
    withdrawn(unit, mona)
    unit.successor = other
    unit.save()
    with pytest.raises(NotNow, match="merged"):
        reinstate(unit, milo)


def test_it_stands_under_the_rules_that_came_into_force_meanwhile(unit, mona, milo):
    before = unit.publication.standing.rulebook
    withdrawn(unit, mona)
    step = RULEBOOKS_OWN.scenarios[0].steps[0]
    made = edit_scenario(mona, RULEBOOKS_OWN, RULEBOOKS_OWN.scenarios[0].id,
                         {step.key: "1/7"}, "Fewer, by the register.")
    put(mona, numbered_scenarios(made.number), "Now", RULEBOOKS_OWN.name)
    reinstate(unit, milo)
    assert ScenarioSet.objects.get().version in unit.publication.standing.rulebook
    assert unit.publication.assessment.rulebook == before


def test_what_was_not_withdrawn_is_not_made_public_again(unit, mona):
    with pytest.raises(NotNow, match="is published, so it cannot be published again"):
        reinstate(unit, mona)
    assert not Statement.objects.exists()
