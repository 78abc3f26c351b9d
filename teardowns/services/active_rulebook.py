"""The rulebook as it counts on this site: with the habits of the active reference set, and with
the scenarios in force."""
from __future__ import annotations

from typing import Any

from teardowns.engine import reference_set, rulebook
from teardowns.engine.habits import LearnedHabit
from teardowns.engine.rulebook import Rulebook
from teardowns.engine.scenarios import read_scenarios
from teardowns.models import ReferenceSet, ScenarioSet


def active_rulebook() -> Rulebook:
    return rulebook_with(ReferenceSet.objects.filter(is_active=True).first(),
                         ScenarioSet.objects.filter(is_active=True).first())


def rulebook_beside(unit: Any) -> Rulebook:
    """The same, by a unit that came `with_active_set`; asks nothing more of the database."""
    habits = None if unit.active_number is None else ReferenceSet(
        number=unit.active_number, digest=unit.active_digest, habits=unit.active_habits)
    scenarios = None if unit.risk_number is None else ScenarioSet(
        number=unit.risk_number, digest=unit.risk_digest, scenarios=unit.risk_scenarios)
    return rulebook_with(habits, scenarios)


def rulebook_with(stored: ReferenceSet | None, scenarios: ScenarioSet | None = None) -> Rulebook:
    """The rulebook with stored sets; None leaves its own habits, its own scenarios."""
    book = _with_habits(stored)
    if scenarios is None:
        return book
    return book.with_scenarios(read_scenarios(scenarios.scenarios), scenarios.version)


def _with_habits(stored):
    if stored is None:
        return rulebook.load()
    habits = {rule_id: LearnedHabit(**fields) for rule_id, fields in stored.habits.items()}
    reference = reference_set.ReferenceSet(stored.version, habits)
    return reference_set.with_reference(rulebook.load(), reference)
