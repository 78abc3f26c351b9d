"""A changed step: a new set with its author and reason, which counts when it is put in force."""
import pytest

from core.audit.models import Entry
from teardowns.engine import rulebook
from teardowns.engine.scenarios import SCENARIOS
from teardowns.models import ScenarioSet
from teardowns.services.active_rulebook import active_rulebook
from teardowns.services.edit_scenarios import (
    OWN,
    OWN_NAME,
    ScenarioError,
    edit_scenario,
    numbered_scenarios,
    put_in_force,
    scenarios_in_force,
)

pytestmark = pytest.mark.django_db


def edited(author, typed, reason="Seen to move in nine of ten.", number=OWN):
    return edit_scenario(author, numbered_scenarios(number), "loose_metal", typed, reason)


def step(scenarios, key="moves"):
    metal = next(one for one in scenarios if one.id == "loose_metal")
    return next(one for one in metal.steps if one.key == key)


def test_a_change_makes_a_set_that_names_author_and_reason_and_counts_for_nothing_yet(mona):
    made = edited(mona, {"moves": "1/5"})
    kept = numbered_scenarios(made.number).scenarios
    assert (step(kept).p, step(kept).by) == ("1/5", "mona")
    assert step(kept).why == "Seen to move in nine of ten."
    assert step(kept, "touched").by == "this rulebook"
    assert scenarios_in_force().scenarios == SCENARIOS and not made.is_active
    assert active_rulebook() is rulebook.load()


def test_it_counts_when_it_is_put_in_force_and_stands_in_the_version(mona):
    made = edited(mona, {"moves": "1/5"})
    put_in_force(mona, numbered_scenarios(made.number), "Two of us agreed.", OWN_NAME)
    assert step(scenarios_in_force().scenarios).p == "1/5"
    assert active_rulebook().version == f"{rulebook.load().version}+{made.version}"
    assert [entry.reason for entry in Entry.objects.all()] == [
        "Two of us agreed.", "Seen to move in nine of ten."]


def test_a_change_goes_on_from_the_set_that_was_looked_at_and_leaves_it_as_it_was(mona):
    first = edited(mona, {"moves": "1/5"}, "First.")
    second = edited(mona, {"fatal": "1/7"}, "Second.", first.number)
    kept = numbered_scenarios(2).scenarios
    assert (first.number, second.number) == (1, 2)
    assert (step(kept).why, step(kept, "fatal").why) == ("First.", "Second.")
    assert step(numbered_scenarios(1).scenarios, "fatal").p == "1/10"


@pytest.mark.parametrize("typed, reason, field", [
    ({"moves": "often"}, "Why not.", "moves"), ({"moves": "0"}, "Why not.", "moves"),
    ({"moves": "1/5"}, "  ", "reason"), ({"moves": "0.02"}, "The same.", "reason")])
def test_what_cannot_be_kept_names_the_field_and_changes_nothing(mona, typed, reason, field):
    with pytest.raises(ScenarioError) as error:
        edited(mona, typed, reason)
    assert field in error.value.errors and not ScenarioSet.objects.exists()


def test_an_unknown_scenario_is_named(mona):
    with pytest.raises(ScenarioError, match="no such scenario"):
        edit_scenario(mona, scenarios_in_force(), "nothing", {}, "Why.")


def test_only_a_moderator_changes_them_or_puts_them_in_force(rita, mona):
    with pytest.raises(PermissionError):
        edited(rita, {"moves": "1/5"})
    made = numbered_scenarios(edited(mona, {"moves": "1/5"}).number)
    with pytest.raises(PermissionError):
        put_in_force(rita, made, "Why.", OWN_NAME)


def test_the_rulebooks_own_can_be_put_back_with_a_reason(mona):
    made = numbered_scenarios(edited(mona, {"moves": "1/5"}).number)
    put_in_force(mona, made, "Agreed.", OWN_NAME)
    with pytest.raises(ScenarioError, match="Write why"):
        put_in_force(mona, numbered_scenarios(OWN), " ", made.name)
    put_in_force(mona, numbered_scenarios(OWN), "It was a mistake.", made.name)
    assert scenarios_in_force() == numbered_scenarios(OWN)
    assert active_rulebook().version == rulebook.load().version


def test_what_another_put_in_force_meanwhile_is_not_replaced_unseen(mona):
    first, second = (numbered_scenarios(edited(mona, {"moves": p}).number) for p in ("1/5", "1/6"))
    put_in_force(mona, first, "Agreed.", OWN_NAME)
    with pytest.raises(ScenarioError, match=f"Meanwhile {first.name}"):
        put_in_force(mona, second, "Agreed.", OWN_NAME)
    with pytest.raises(ScenarioError, match="in force already"):
        put_in_force(mona, first, "Again.", first.name)
    assert scenarios_in_force().number == first.number


def test_a_number_that_no_set_has_is_none():
    assert numbered_scenarios(7) is None
